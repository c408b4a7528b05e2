package sweep_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/boatfiletest"
	"hushwake/path/scene"
	"hushwake/path/study/sweep"
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
	require.InEpsilon(t, l.Engines[0].Rated.Power/8, half.Engines[0].Running.Power, 1e-9)
	stopped := *demo(t, "generator-box").Layouts[0]
	stopped.Engines[0].Stopped = true
	require.False(t, sweep.OverLoad([]*path.Layout{&stopped}))
}

// A level measured at the running duty stays there and goes elsewhere.
func TestMeasuredLevelsHoldAtTheirDutyOnly(t *testing.T) {
	l := demo(t, "generator-box").Layouts[0]
	l.Engines[0].CasingLevel = &spectrum.Bands{}
	share := l.Engines[0].Running.Power / l.Engines[0].Rated.Power
	require.NotNil(t, sweep.AtLoad(l, share).Engines[0].CasingLevel)
	require.Nil(t, sweep.AtLoad(l, share/2).Engines[0].CasingLevel)
	require.NotNil(t, l.Engines[0].CasingLevel, "the layout itself is not changed")
}
