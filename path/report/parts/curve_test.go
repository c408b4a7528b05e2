package parts

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/boatfiletest"
)

// The curve that a page draws, rational between some frequencies, is within 0.05 dB of the exact one below 80 dB of loss.
func TestDrawnCurvesAreTheExactOnes(t *testing.T) {
	b := boatfiletest.Demo(t, "three-quotes")
	var hz []float64
	for f := 20.0; f <= 2000; f += 10 {
		hz = append(hz, f)
	}
	for _, l := range b.Layouts[:2] {
		f, err := FeedOf(b, l, "")
		require.NoError(t, err)
		exact, err := f.Line.Curve(f.Feed, f.Options, hz)
		require.NoError(t, err)
		f.Options.Rational = true
		drawn, err := f.Line.Curve(f.Feed, f.Options, hz)
		require.NoError(t, err)
		for i, v := range exact.InsertionLoss {
			if v < 80 {
				require.InDelta(t, v, drawn.InsertionLoss[i], 0.05, "%s at %g Hz", l.Name, hz[i])
			}
		}
	}
}
