package room

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A rise and what it is bent to are inverse to each other, alike up to 60 K, and the slope is that of a difference.
func TestStraightIsTheInverseOfBent(t *testing.T) {
	for _, rise := range []float64{0, 12, 60, 61, 90, 150, 600} {
		straight, slope := Straight(Bent(rise))
		assert.InDelta(t, rise, straight, 1e-9*(1+rise))
		up, _ := Straight(Bent(rise) + 1e-5)
		assert.InEpsilon(t, (up-straight)/1e-5, slope, 1e-4)
	}
	assert.InDelta(t, 105, Bent(150), 1e-9, "by hand: 60 + 90/(1 + 90/90)")
	out, _ := Straight(150)
	assert.True(t, math.IsInf(out, 1))
}

// Corrected by nothing a box is as reckoned; by factors heat, flow and need follow by hand, and so does the verdict.
func TestCorrectedBox(t *testing.T) {
	v := Ventilation{Openings: []Opening{{Role: "inlet", Area: 0.02}, {Role: "outlet", Area: 0.02}}, Heat: []Heat{{Stated: 900, Combustion: 0.01}}, Walls: 4, Fan: &Fan{Flow: 0.05, Pressure: 60}}
	was, err := ventilate(v)
	require.NoError(t, err)
	same, err := v.Corrected(Correction{1, 1, 1})
	require.NoError(t, err)
	assert.Equal(t, was, same)
	m := 101325 / (287.05 * 300) * cpAir * was.Flow
	follows := 2 * (4 + m) / (4 + m/2) // what twice the heat and half the flow make of the rise
	a, err := v.Corrected(Correction{Heat: 2, Flow: 0.5, Rise: follows})
	require.NoError(t, err)
	assert.InEpsilon(t, 1800, a.Heat, 1e-12)
	assert.InEpsilon(t, was.Flow/2, a.Flow, 1e-12)
	assert.InEpsilon(t, follows*was.Rise, a.Rise, 1e-12, "both under 60 K")
	less, err := v.Corrected(Correction{Heat: 2, Flow: 0.5, Rise: follows / 1.02})
	require.NoError(t, err)
	assert.InEpsilon(t, was.Rise*follows/1.02, less.Rise, 1e-12, "the rise was read")
	assert.InEpsilon(t, 1800/1.02, less.Heat, 1e-12, "and the heat is what then goes off")
	assert.InEpsilon(t, AirFlow(1800-4*15, 15, 101325/(287.05*300))+0.01, a.Needed, 1e-9)
	assert.InEpsilon(t, was.PressureDrop/4, a.PressureDrop, 1e-9)
	assert.Greater(t, a.FanStopped.Rise, was.FanStopped.Rise)
	assert.Equal(t, []string{"ok", "cooked"}, []string{was.Verdicts[0].Code, a.Verdicts[0].Code})
	for _, c := range []Correction{{}, {1, math.NaN(), 1}, {1, 1, math.Inf(1)}, {-1, 1, 1}} {
		_, err := v.Corrected(c)
		assert.ErrorContains(t, err, "must be above zero")
	}
}
