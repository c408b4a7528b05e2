package sweep_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/boatfiletest"
	"hushwake/path/scene"
	"hushwake/path/study/sweep"
	"hushwake/source"
	"hushwake/source/spectrum"
)

var demo = boatfiletest.Demo

// A set is swept over load at its own speed: power goes from a tenth to the whole, speed stays, levels never fall much and
// the back pressure rises with the gas; nothing booms.
func TestASetIsSweptOverItsLoad(t *testing.T) {
	b := demo(t, "generator-box")
	l := b.Layouts[0]
	require.True(t, sweep.OverLoad([]*path.Layout{l}))
	predict := func(_ string, share float64) (path.Prediction, error) {
		return scene.PredictIn(b, sweep.AtLoad(l, share), path.Fast)
	}
	loads := []float64{0.1, 0.4, 0.7, 1}
	swept, err := sweep.RunLoads(context.Background(), []string{l.Name}, loads, predict)
	require.NoError(t, err)
	require.True(t, swept[0].OverLoad)
	require.Empty(t, swept[0].Booms)
	for i, p := range swept[0].Points {
		require.Equal(t, loads[i], p.Load)
		require.Equal(t, 1500.0, p.Speed)
		require.InDelta(t, loads[i]*7600, p.Power, 1e-6)
		if i > 0 {
			require.GreaterOrEqual(t, p.BackPressure, swept[0].Points[i-1].BackPressure)
			require.Greater(t, p.Listeners[2].Level, swept[0].Points[i-1].Listeners[2].Level-0.5)
		}
	}
}

// A boat with an engine on the propeller law is swept over speed; a layout in which nothing runs over nothing.
func TestWhatIsSweptOverSpeed(t *testing.T) {
	b := demo(t, "dry-stack")
	l := b.Layouts[0]
	require.False(t, sweep.OverLoad([]*path.Layout{l}))
	half := sweep.AtSpeed(l, l.Engines[0].Rated.Speed/2)
	e := l.Engines[0]
	require.InEpsilon(t, e.Running.Power*math.Pow(e.Rated.Speed/2/e.Running.Speed, 3), half.Engines[0].Running.Power, 1e-9)
	stopped := *demo(t, "generator-box").Layouts[0]
	stopped.Engines[0].Stopped = true
	require.False(t, sweep.OverLoad([]*path.Layout{&stopped}))
}

// A level measured at the running duty is itself there and moved elsewhere; the layout itself is not changed.
func TestMeasuredLevelsAreMovedFromTheirDuty(t *testing.T) {
	l := demo(t, "generator-box").Layouts[0]
	e := &l.Engines[0]
	e.CasingLevel = &spectrum.Bands{90, 90, 90, 90, 90, 90, 90, 90, 90}
	require.Zero(t, sweep.AtLoad(l, e.Running.Power/e.Rated.Power).Engines[0].MeasuredAt)
	require.Equal(t, e.Running, sweep.AtLoad(l, 0.3).Engines[0].MeasuredAt)
	require.Zero(t, e.MeasuredAt)
	half := sweep.AtSpeed(l, 750).Engines[0]
	r, err := half.Engine.At(half.Running)
	require.NoError(t, err)
	require.InDelta(t, 90+30*math.Log10(0.5), r.Casing.Bands[4], 1e-9, "as the cube of speed (SAE 590127)")
}

// The speeds of a curve hold that at which the engines run, and keep their order, whether it lies in the grid or below it; where
// engines run at several there is none to hold.
func TestSpeedsHoldTheRunningOne(t *testing.T) {
	for _, rpm := range []float64{1700, 1699, 600, 2100} {
		l := &path.Layout{Engines: []path.Engine{{Engine: source.Engine{Name: "main", Rated: source.Duty{Power: 1e5, Speed: 2100}, Running: source.Duty{Power: 5e4, Speed: rpm}}}}}
		all := sweep.Speeds([]*path.Layout{l}, 25)
		require.Len(t, all, 25)
		assert.Contains(t, all, rpm)
		assert.True(t, slices.IsSorted(all))
		assert.Equal(t, rpm, sweep.RunningSpeed([]*path.Layout{l}))
		other := &path.Layout{Engines: slices.Clone(l.Engines)}
		other.Engines[0].Running.Speed = 1000
		assert.Zero(t, sweep.RunningSpeed([]*path.Layout{l, other}))
		assert.InDelta(t, 840, sweep.Speeds([]*path.Layout{l, other}, 25)[0], 1e-9, "40 % of rated")
	}
}
