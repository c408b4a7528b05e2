package room

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A small air-cooled set in a tight box, invented: 3.1 kW to carry off, 0.0123 m3/s to burn.
func tight(openings ...Opening) Ventilation {
	return Ventilation{Heat: []Heat{{Stated: 3100, Combustion: 0.0123}}, Openings: openings}
}

func codes(a Air) (out []string) {
	for _, v := range a.Verdicts {
		out = append(out, v.Code)
	}
	return out
}

// An 80 mm hole feeds the engine but does not cool it; a pin-hole does neither; its own air pipe cools nothing.
func TestStarvedAndCookedAreDifferent(t *testing.T) {
	a, err := ventilate(tight(Opening{Role: "inlet", Area: 0.005}))
	require.NoError(t, err)
	assert.Equal(t, []string{"cooked"}, codes(a))
	assert.InDelta(t, 2.46, a.InletVelocity, 0.01)
	a, err = ventilate(tight(Opening{Role: "inlet", Area: 0.0005}))
	require.NoError(t, err)
	assert.Equal(t, []string{"starved", "cooked"}, codes(a))
	own := tight()
	own.OwnAirPipe = true
	a, err = ventilate(own)
	require.NoError(t, err)
	assert.Equal(t, []string{"cooked"}, codes(a))
	assert.False(t, math.IsInf(a.Rise, 0) || math.IsNaN(a.Rise))
	cold := tight(Opening{Role: "inlet", Area: 0.005})
	cold.Heat[0].Stated = 100
	a, err = ventilate(cold)
	require.NoError(t, err)
	assert.Equal(t, []string{"ok"}, codes(a))
}

// A fan with lined ducts carries the heat off; when it stops the box cooks and says so.
func TestFanAndItsFailure(t *testing.T) {
	d := &Duct{Length: 0.6, Width: 0.24, Height: 0.15, Lining: "foam", Thickness: 0.025, Bends: 1}
	v := tight(Opening{Role: "inlet", Area: 0.036, Duct: d}, Opening{Role: "outlet", Area: 0.036, Duct: d})
	v.Fan = &Fan{Flow: 0.2, Pressure: 60}
	a, err := ventilate(v)
	require.NoError(t, err)
	assert.Equal(t, []string{"ok"}, codes(a))
	require.NotNil(t, a.FanStopped)
	assert.Greater(t, a.FanStopped.Rise, 3*a.Rise)
	assert.Contains(t, a.FanStopped.Text, "stopped")
	assert.InDelta(t, a.Needed/fanVelocity, a.InletAreaNeeded, 1e-9)
	assert.Greater(t, a.FanPressure, a.PressureDrop, "both openings count")
	v.Fan.Pressure = 0
	a, err = ventilate(v)
	require.NoError(t, err)
	assert.LessOrEqual(t, a.Flow, 0.2)
	assert.Contains(t, a.Warnings[0], "not stated")
}

// Pressure at the working point balances: fan and draught against both openings.
func TestBalance(t *testing.T) {
	v := tight(Opening{Role: "inlet", Area: 0.06}, Opening{Role: "outlet", Area: 0.04})
	v.Fan = &Fan{Flow: 0.1, Pressure: 50}
	v = v.filled()
	n := v.network()
	n.heat = 3100
	q := n.flow(v.Fan)
	assert.InDelta(t, n.loss(q), v.Fan.pressure(q)+n.draught(n.warmer(q)), 1e-6)
	assert.InDelta(t, 50, v.Fan.pressure(0.1), 1e-9, "through its duty point")
}

// The engine's share is 8 % of the fuel's heat and the alternator's losses, unless stated or cooled by water.
func TestHeat(t *testing.T) {
	h := Heat{Fuel: 24900, Shaft: 7600, Generator: true}
	w, _ := h.Load()
	assert.InDelta(t, 3056, w, 1)
	h.GeneratorPower = 6500
	w, _ = h.Load()
	assert.InDelta(t, 0.08*24900+1100, w, 1)
	h.WaterCooled = true
	wet, text := h.Load()
	assert.Less(t, wet, w)
	assert.Contains(t, text, "water")
	cooled := Heat{Fuel: 24900, AirCooled: true, Exhaust: 120}
	w, text = cooled.Load()
	assert.InDelta(t, 0.33*24900+120, w, 1e-9)
	assert.Contains(t, text, "exhaust")
	h.Stated = 1600
	w, _ = h.Load()
	assert.Equal(t, 1600.0, w)
}

func TestBadAir(t *testing.T) {
	v := tight(Opening{Role: "inlet", Area: 0.01})
	v.Fan = &Fan{}
	_, err := ventilate(v)
	assert.ErrorContains(t, err, "hint:")
	v.Fan, v.Heat[0].Combustion = nil, math.NaN()
	_, err = ventilate(v)
	assert.Error(t, err)
	_, err = ventilate(tight(Opening{Area: -1}))
	assert.Error(t, err)
}

// Larger openings never make the box hotter, more heat never makes it cooler, nothing is ever NaN.
func TestAirProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		area, heat := rapid.Float64Range(0, 0.3).Draw(t, "area"), rapid.Float64Range(0, 2e4).Draw(t, "heat")
		walls := rapid.Float64Range(0, 30).Draw(t, "walls")
		ventilate := func(area, heat float64) Air {
			v := tight(Opening{Role: "inlet", Area: area}, Opening{Role: "outlet", Area: area}, Opening{Role: "leak", Area: 0.001})
			v.Heat[0].Stated, v.Walls = heat, walls
			a, err := ventilate(v)
			require.NoError(t, err)
			return a
		}
		a, wider, hotter := ventilate(area, heat+1), ventilate(area*1.5, heat+1), ventilate(area, heat*1.5+1)
		walls *= 1.5
		thinner := ventilate(area, heat+1)
		if wider.Rise > a.Rise+1e-6 || hotter.Rise < a.Rise-1e-6 || thinner.Rise > a.Rise+1e-6 {
			t.Fatalf("rise %g, wider %g, hotter %g, thinner walls %g", a.Rise, wider.Rise, hotter.Rise, thinner.Rise)
		}
		for _, x := range []float64{a.Flow, a.Rise, a.FanPressure, a.PressureDrop, a.InletVelocity, a.DraughtArea} {
			if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
				t.Fatalf("bad figure %g in %+v", x, a)
			}
		}
	})
}

// Without any way in there is no pressure drop to tell, and the box says so.
func TestAirtightBox(t *testing.T) {
	a, err := ventilate(Ventilation{Heat: []Heat{{Stated: 2000, Combustion: 0.01}}})
	if err != nil {
		t.Fatal(err)
	}
	if !a.Airtight || a.PressureDrop != 0 || a.Verdicts[0].Code != "starved" {
		t.Errorf("airtight %v, drop %g Pa, %+v", a.Airtight, a.PressureDrop, a.Verdicts)
	}
	a, err = ventilate(Ventilation{Heat: []Heat{{Stated: 2000, Combustion: 0.01}}, Openings: []Opening{{Role: "inlet", Area: 0.02}}})
	if err != nil || a.Airtight || a.PressureDrop <= 0 {
		t.Errorf("with an inlet: airtight %v, drop %g Pa, %v", a.Airtight, a.PressureDrop, err)
	}
}

// Heat goes by the air and through the walls: 100 W in a tight box that breathes elsewhere warms a box of bare steel
// by 4 K and a lined one by 32 K; the walls' own share closes the balance with a fan running too.
func TestHeatThroughTheWalls(t *testing.T) {
	tightBox := Ventilation{Heat: []Heat{{Stated: 100}}, OwnAirPipe: true, Walls: 27.6}
	a, err := ventilate(tightBox)
	require.NoError(t, err)
	assert.Equal(t, []string{"ok"}, codes(a))
	assert.InDelta(t, 100/27.6, a.Rise, 1e-9)
	tightBox.Walls = 3.1
	a, err = ventilate(tightBox)
	require.NoError(t, err)
	assert.Equal(t, []string{"cooked"}, codes(a))
	assert.InDelta(t, 32, a.Rise, 0.5)
	tightBox.Walls = 0
	a, err = ventilate(tightBox)
	require.NoError(t, err)
	assert.Equal(t, 150.0, a.Rise, "nothing carries it off: the surfaces' own")
	v := tight(Opening{Role: "inlet", Area: 0.04}, Opening{Role: "outlet", Area: 0.04})
	v.Fan, v.Walls = &Fan{Flow: 0.2, Pressure: 60}, 20
	a, err = ventilate(v)
	require.NoError(t, err)
	rho := 101325 / (287.05 * 300)
	assert.InDelta(t, a.Heat, (a.Walls+rho*1005*a.Flow)*a.Rise, 1e-6*a.Heat)
	assert.InDelta(t, 0.0123+(3100-20*15)/(rho*1005*15), a.Needed, 1e-9, "what the walls carry needs no air")
	v.Walls = math.NaN()
	_, err = ventilate(v)
	assert.ErrorContains(t, err, "walls")
}

// Two sets in one box give twice the heat and draw twice the air: the same as one of double size.
func TestTwoSetsInOneBox(t *testing.T) {
	set := Heat{Fuel: 24900, Shaft: 7600, Generator: true, Combustion: 0.0123}
	double := Heat{Fuel: 2 * set.Fuel, Shaft: 2 * set.Shaft, Generator: true, Combustion: 2 * set.Combustion}
	box := func(heat ...Heat) Air {
		a, err := ventilate(Ventilation{Heat: heat, Walls: 10, Openings: []Opening{{Role: "inlet", Area: 0.08}, {Role: "outlet", Area: 0.08}}})
		require.NoError(t, err)
		return a
	}
	one, two := box(set), box(set, set)
	assert.Equal(t, box(double), two)
	assert.InDelta(t, 2*one.Heat, two.Heat, 1e-9)
	assert.InDelta(t, 2*one.CombustionAir, two.CombustionAir, 1e-12)
	assert.Greater(t, two.Rise, 1.3*one.Rise)
	bad := set
	bad.Fuel = -1
	_, err := ventilate(Ventilation{Heat: []Heat{set, bad}})
	assert.ErrorContains(t, err, "fuel heat")
}

// ventilate is a box as it is reckoned.
func ventilate(v Ventilation) (Air, error) { return v.Corrected(Correction{1, 1, 1}) }
