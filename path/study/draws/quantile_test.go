package draws

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// Values put in order by the library's sort, read at p(n-1), are the same to the bit.
func TestQuantilesAreThoseOfSortedValues(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	shares := []float64{0.5, 0.1, 0.9, 0, 1, 0.45, 0.999}
	for n := 2; n < 400; n += 7 {
		v := make([]float64, n)
		for i := range v {
			v[i] = math.Round(r.NormFloat64()*float64(n)) / 8 // many are equal
		}
		before, in := slices.Clone(v), slices.Clone(v)
		slices.Sort(in)
		for i, q := range quantiles(v, shares...) {
			x := shares[i] * float64(n-1)
			k := min(int(x), n-2)
			require.Equal(t, in[k]+(x-float64(k))*(in[k+1]-in[k]), q, "%d values, %g", n, shares[i])
		}
		require.Equal(t, before, v, "they stay where they were")
	}
	require.True(t, math.IsNaN(Quantile([]float64{1, math.NaN(), 2}, 0.1)), "what is no number doesn't get lost")
}
