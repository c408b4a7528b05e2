package room

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A fan of straight curve against holes has a working point in closed form: p0(1 - q/q0) = q2/c2, no heat, no draught.
func TestFanWorksWhereItsCurveMeetsTheDucts(t *testing.T) {
	d := &Duct{Length: 1.2, Width: 0.2, Height: 0.15, Lining: "foam", Thickness: 0.025, Bends: 2}
	v := Ventilation{Openings: []Opening{{Role: "inlet", Area: 0.03, Duct: d}, {Role: "outlet", Area: 0.03, Duct: d}}, Outside: 293.15}
	p0, q0 := 120.0, 0.4
	for _, curve := range [][]FanPoint{{{0, p0}, {q0, 0}}, {{0, p0}, {0.1, 90}, {0.3, 30}}, {{0.1, 90}, {0.15, 75}}} {
		v.Fan = &Fan{Curve: curve}
		a, err := ventilate(v)
		require.NoError(t, err)
		rho := 101325 / (287.05 * 293.15)
		head := 1.5 + 0.03*1.2/(2*0.2*0.15/0.35) + 2*1.2
		k := 2 * head * rho / 2 / (0.03 * 0.03) // both ducts
		want := (-p0/q0 + math.Sqrt(p0/q0*p0/q0+4*k*p0)) / (2 * k)
		assert.InEpsilon(t, want, a.Flow, 0.01)
		assert.InEpsilon(t, p0*(1-want/q0), a.Fan.Pressure, 0.01)
	}
	v.Fan = &Fan{Curve: []FanPoint{{0, 90}, {0.05, 60}}}
	a, err := ventilate(v)
	require.NoError(t, err)
	assert.Contains(t, a.Warnings[0], "outside its curve")
}

func TestBadFans(t *testing.T) {
	for _, f := range []Fan{{}, {Curve: []FanPoint{{0, 50}}}, {Curve: []FanPoint{{0, 50}, {0.1, 60}}}, {Curve: []FanPoint{{0.1, 50}, {0.1, 40}}},
		{Curve: []FanPoint{{0, math.NaN()}, {0.1, 40}}}, {Curve: []FanPoint{{-0.1, 50}, {0.1, 40}}}} {
		_, err := ventilate(Ventilation{Fan: &f})
		assert.ErrorContains(t, err, "hint:", "%+v", f)
	}
}

// The level by flow and pressure lies within 4 dB of the two other published forms for the same fan, 40 + 10 lg V + 20 lg p
// and 67 + 10 lg(motor kW) + 10 lg p with a motor of twice the air power (CIBSE Guide B, from memory).
func TestFanLevelAgainstOtherForms(t *testing.T) {
	for _, x := range [][2]float64{{0.05, 60}, {0.2, 60}, {0.2, 250}, {1, 500}} {
		ours, v, p := fanLevel(x[0], x[1]), x[0], x[1]
		assert.InDelta(t, 40+10*math.Log10(v)+20*math.Log10(p), ours, 4)
		assert.InDelta(t, 67+10*math.Log10(2*v*p/1000)+10*math.Log10(p), ours, 4)
	}
	assert.InDelta(t, 37-7+35.6, fanLevel(0.2, 60), 0.05, "by hand")
	lw, sd := (&Fan{Flow: 0.2, Pressure: 60}).Sound(0.2)
	assert.InDelta(t, fanLevel(0.2, 60), lw.Total(), 1e-9, "octaves add up to the total")
	assert.Equal(t, 4.0, sd[3])
	assert.InDelta(t, -3.88, lw.DBA()-lw.Total(), 0.01, "the row -8 -7 -9 -7 -7 -8 -10 -13 -17 under the A-weighting")
}

// A stated level is kept to; a faster or harder working fan is louder; a fan against a shut duct makes sound of its flow only.
func TestFanSound(t *testing.T) {
	lw, sd := (&Fan{Flow: 0.1, Pressure: 50, SoundPower: 72}).Sound(0.1)
	assert.InDelta(t, 72, lw.DBA(), 1e-9)
	assert.Equal(t, 2.0, sd[4])
	rapid.Check(t, func(t *rapid.T) {
		q, p := rapid.Float64Range(0.01, 1).Draw(t, "flow"), rapid.Float64Range(10, 500).Draw(t, "pressure")
		small, _ := (&Fan{Flow: q, Pressure: p}).Sound(q)
		large, _ := (&Fan{Flow: q, Pressure: 2 * p}).Sound(q)
		assert.InDelta(t, 20*math.Log10(2), large.DBA()-small.DBA(), 1e-9)
		free, _ := (&Fan{Flow: q, Pressure: p}).Sound(1.5 * q)
		quarter := (&Fan{Flow: q, Pressure: p}).pressure(0) / 4
		assert.InDelta(t, fanLevel(1.5*q, quarter), free.Total(), 1e-9, "free delivery is no silence")
	})
	still, _ := (&Fan{Flow: 0.1, Pressure: 50}).Sound(0)
	assert.Less(t, still.DBA(), -100.0)
}
