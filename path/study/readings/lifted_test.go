package readings

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/silencer/safety"
	"hushwake/source/said"
)

// One back pressure read far under what the model expects corrects the figures of every line and lifts the refusal of none;
// without it the same lines are refused.
func TestOddPressureLiftsNoRefusal(t *testing.T) {
	b, err := boatfile.LoadFile("../../../testdata/everything.yaml")
	require.NoError(t, err)
	k, err := Know(b, Options{Options: draws.Options{N: 100}})
	require.NoError(t, err)
	require.Equal(t, []int{3}, k.OddlyLow())
	for i, p := range k.Predictions {
		assert.True(t, k.Central[i].Refused, p.Layout.Name)
		assert.True(t, p.Refused, p.Layout.Name)
		assert.Less(t, p.Exhausts[0].Rated.BackPressure, k.Central[i].Exhausts[0].Rated.BackPressure, "the figures follow it")
		quick, err := k.Quick(k.Central[i])
		require.NoError(t, err)
		assert.True(t, quick.Refused, "as does what is asked quickly")
	}
	for _, p := range k.Predictions {
		x := p.Exhausts[0]
		assert.InDelta(t, x.Running.BackPressure, x.Cost.Pressure, 1e-6*x.Cost.Pressure, "what it costs follows it")
		e, _ := p.Layout.Engine(x.Engine)
		want, ok := path.BackPressureCost(e.Engine, x.Source.Duty, x.Running.BackPressure)
		require.True(t, ok)
		assert.InEpsilon(t, want.Power, x.Cost.Power, 1e-9)
		assert.InEpsilon(t, want.SDAir, x.Cost.SDAir, 1e-9)
		told := 0
		for _, f := range p.Findings {
			if f.Code == "PRESSURE-COST" && f.Element == x.Engine {
				told++
				assert.Contains(t, said.Plain(f.Text), fmt.Sprintf("%.1f kPa of back pressure", x.Running.BackPressure/1e3))
			}
		}
		assert.Equal(t, 1, told, "the figure without the reading is gone")
	}
	f := k.Predictions[0].Findings[0]
	assert.Equal(t, codeOddReading, f.Code)
	assert.Contains(t, f.Text, "main: Refused without reading 3, which is odd (take it again): back pressure at rated is")
	one := k.Predictions[0]
	one.Exhausts = one.Exhausts[:1]
	assert.Equal(t, f, one.OfLine(f, 0), "alone it needs no name")
	assert.Contains(t, f.Action, "take reading 3 again")
}

// A reading that is as expected lifts a refusal as it did; so does none that is odd the other way, or struck.
func TestWhichReadingsLiftRefusals(t *testing.T) {
	b := generatorBox(t)
	as, err := scene.Predict(b, b.Layouts[0])
	require.NoError(t, err)
	limit := as.Exhausts[0].Rated.BackPressure / 2
	for i := range b.Layouts[0].Engines {
		b.Layouts[0].Engines[i].Limit = &limit
	}
	was, err := scene.Predict(b, b.Layouts[0])
	require.NoError(t, err)
	require.True(t, was.Refused)
	low, read := was, 3e3
	low.Exhausts = append([]path.ExhaustResult(nil), was.Exhausts...)
	low.Exhausts[0].Rated.BackPressure *= 0.1
	b.Readings = []path.Reading{{Index: 1, BackPress: &read, Engine: was.Exhausts[0].Engine}}
	for _, c := range []struct {
		of      Residual
		refused bool
	}{
		{Residual{Reading: 1, Used: true, Odd: true, Standardised: -7}, true},
		{Residual{Reading: 1, Used: true, Odd: true, Standardised: 7}, false},
		{Residual{Reading: 1, Used: true, Standardised: -2}, false},
		{Residual{Reading: 1, Odd: true, Standardised: -7}, false},
		{Residual{Reading: 2, Used: true, Odd: true, Standardised: -7}, false},
	} {
		p := low
		k := Known{Boat: b, Fit: &Calibration{Residuals: []Residual{c.of}}}
		k.Rejudge(&was, &p)
		assert.Equal(t, c.refused, p.Refused, "%+v", c.of)
		again := was
		k.Rejudge(&was, &again)
		assert.True(t, again.Refused)
		assert.Equal(t, safety.CodeOverLimit, again.Findings[0].Code, "what nothing lifts is said as before")
	}
}
