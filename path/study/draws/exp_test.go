package draws

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The own exponential is that of the language within 6e-11, the first term that its series leaves out, (ln 2/1024)^3/6 = 5.2e-11,
// over all levels and at the ends of its range.
func TestExponential(t *testing.T) {
	exponential := func(x float64) float64 {
		xs := []float64{x}
		exponentials(xs)
		return xs[0]
	}
	for x := -705.0; x < 705; x += 0.0137 {
		require.InEpsilon(t, math.Exp(x), exponential(x), 6e-11, "e^%g", x)
	}
	for _, x := range []float64{0, 1e-300, -1e-12, math.Ln2, -math.Ln2 / 1024, 699.999} {
		require.InEpsilon(t, math.Exp(x), exponential(x), 6e-11, "e^%g", x)
	}
	require.Equal(t, 1.0, exponential(0))
	require.Zero(t, exponential(math.Inf(-1)))
	require.True(t, math.IsInf(exponential(math.Inf(1)), 1))
	require.True(t, math.IsNaN(exponential(math.NaN())))
}
