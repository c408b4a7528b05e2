package published

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestARowHasAsManyNumbersAsItsFunctionTakes(t *testing.T) {
	for _, f := range []Value{Two(func(a, b float64) float64 { return a - b }), Args(2, func(a []float64) (float64, error) { return a[0] - a[1], nil })} {
		v, err := f([]float64{7, 4})
		require.NoError(t, err)
		require.Equal(t, 3.0, v)
		for _, bad := range [][]float64{nil, {1}, {1, 2, 3}} {
			_, err := f(bad)
			require.ErrorContains(t, err, "the function takes 2")
		}
	}
	v, err := One(func(a float64) float64 { return 2 * a })([]float64{7})
	require.NoError(t, err)
	require.Equal(t, 14.0, v)
}
