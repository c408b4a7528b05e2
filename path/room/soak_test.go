package room

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/source/said"
)

// A tight box cools by its walls alone: an exponential with the two conductances in series, worked in closed form.
func TestCoolingDownOfATightBox(t *testing.T) {
	b := Body{Mass: 200, Area: 2.2, Temperature: 363.15}
	s, err := Ventilation{Walls: 10, Outside: 293.15}.CoolDown(b)
	require.NoError(t, err)
	film := 10 * 2.2
	series := film * 10 / (film + 10)
	share := film / (film + 10) // of the engine's rise that the air has
	assert.InDelta(t, 293.15+70*share, s.Peak, 0.01)
	tau := 200 * 480 / series
	assert.InEpsilon(t, tau*math.Log(70*share/40), *s.Air60, 0.01)
	assert.InEpsilon(t, tau*math.Log(70/31.0), *s.Touch, 0.01)
	assert.Contains(t, said.Plain(s.Text), "under 60 °C after")
}

// Holes let it cool sooner and keep the air cooler; a heavier engine takes longer; in a hot place it is not told when.
func TestCoolingDownWithHoles(t *testing.T) {
	b := Body{Mass: 200, Area: 2.2, Temperature: 363.15}
	cool := func(area, outside float64, b Body) Soak {
		s, err := Ventilation{Walls: 5, Outside: outside, Openings: []Opening{{Role: "inlet", Area: area}, {Role: "outlet", Area: area}}}.CoolDown(b)
		require.NoError(t, err)
		return s
	}
	shut, open := cool(0, 300, b), cool(0.05, 300, b)
	assert.Less(t, open.Peak, shut.Peak-10)
	assert.Less(t, *open.Touch, *shut.Touch)
	heavy := b
	heavy.Mass *= 2
	assert.InEpsilon(t, 2, *cool(0.05, 300, heavy).Touch / *open.Touch, 0.01)
	assert.Nil(t, cool(0.05, 330, b).Touch)
	assert.Contains(t, cool(0.05, 330, b).Text, "not within")
	assert.Equal(t, 0.0, *cool(0.3, 290, b).Air60)
	_, err := Ventilation{}.CoolDown(Body{})
	assert.Error(t, err)
}

// The pipe that feeds an engine past its box: loss by hand, and goes with the fourth power of its bore where ends rule.
func TestAirPipe(t *testing.T) {
	p := AirPipe{Bore: 0.05, Length: 2, Bends: 3}
	v := 0.0123 / (math.Pi / 4 * 0.05 * 0.05)
	assert.InEpsilon(t, (1.5+0.05*2/0.05+0.9)*1.2*v*v/2, p.Loss(0.0123, 1.2), 1e-9)
	assert.InEpsilon(t, 16, AirPipe{Bore: 0.05}.Loss(0.01, 1.2)/AirPipe{Bore: 0.1}.Loss(0.01, 1.2), 1e-9)
	_, err := ventilate(Ventilation{OwnAirPipe: true, AirPipe: &AirPipe{}})
	assert.ErrorContains(t, err, "bore")
}

// Shares of the power in a box add up to 1, whatever it is made of; what goes apart is taken out of the walls' share.
func TestOutflowIsABalance(t *testing.T) {
	d := &Duct{Length: 0.6, Width: 0.2, Height: 0.15, Lining: "foam", Thickness: 0.025}
	b := plyBox(Opening{Role: "inlet", Area: 0.03, Apart: true}, Opening{Role: "outlet", Area: 0.03, Duct: d, Apart: true}, Opening{Role: "leak", Area: 0.002})
	o := b.Outflow()
	whole := b
	whole.Openings = append([]Opening(nil), b.Openings...)
	whole.Openings[0].Apart, whole.Openings[1].Apart = false, false
	w := whole.Outflow()
	area := b.Area()
	for i := range o.Walls {
		sum := o.Walls[i] + o.Mouths[0][i] + o.Mouths[1][i] + o.Absorbed[i]
		assert.InDelta(t, 1, sum, 1e-12)
		assert.Greater(t, o.Mouths[0][i], o.Mouths[1][i]*0.999, "a duct takes off")
		if f := []float64{31.5, 63}; i >= len(f) {
			assert.InEpsilon(t, w.Walls[i], o.Walls[i]+o.Mouths[0][i]+o.Mouths[1][i], 1e-12)
			all := 0.03 + 0.03*math.Pow(10, -d.Loss()[i]/10) + 0.002 + (area-0.062)*(math.Pow(10, -b.Loss[i]/10)+b.Alpha[i])
			assert.InEpsilon(t, 0.03/all, o.Mouths[0][i], 1e-9, "the mouth's share of all that takes sound")
		}
	}
}
