package silencer_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
)

// What a line takes at a frequency does not hang on which others are asked, in which order, nor on how many of its
// silencers are past their cut-on there.
func TestEachFrequencyStandsAlone(t *testing.T) {
	l, f, o := longLine(), linetest.Exhaust(0.08, 400), silencer.Options{Ceiling: true}
	var hz []float64
	for v := 9000.0; v > 30; v /= 1.3 {
		hz = append(hz, v)
	}
	hz = append(hz, 4000, 2500)
	all, err := l.Curve(f, o, hz)
	require.NoError(t, err)
	open, err := l.Curve(f, silencer.Options{}, hz)
	require.NoError(t, err)
	held := 0
	for i, v := range hz {
		one, err := l.Curve(f, o, []float64{v})
		require.NoError(t, err)
		assert.InDelta(t, one.InsertionLoss[0], all.InsertionLoss[i], 1e-9, "insertion loss at %g Hz", v)
		assert.InDelta(t, one.TransmissionLoss[0], all.TransmissionLoss[i], 1e-9, "transmission loss at %g Hz", v)
		if math.Abs(open.TransmissionLoss[i]-all.TransmissionLoss[i]) > 0.1 {
			held++
		}
	}
	assert.Positive(t, held, "frequencies at which a ceiling holds")
}
