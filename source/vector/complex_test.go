package vector

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// complexes are pairs of numbers as one.
func complexes(v []float64) []complex128 {
	out := make([]complex128, len(v)/2)
	for i := range out {
		out[i] = complex(v[2*i], v[2*i+1])
	}
	return out
}

func pairs(v []complex128, to []float64) {
	for i, z := range v {
		to[2*i], to[2*i+1] = real(z), imag(z)
	}
}

// Complex rows have the same bits both ways, are those of complex arithmetic, and nothing beside them is touched.
func TestComplexRowsBothWays(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for n := range 40 {
		to, from, row := normals(r, 2*n+4), complexes(normals(r, 2*n+2)), normals(r, n)
		f := complex(r.NormFloat64(), r.NormFloat64())
		on := func(work func([]complex128)) func([]float64) {
			return func(v []float64) { z := complexes(v); work(z[1 : n+1]); pairs(z, v) }
		}
		less := both(t, to, on(func(z []complex128) { SubtractTimes(z, f, from) }), "less", n)
		more := both(t, to, on(func(z []complex128) { AddTimes(z, f, row) }), "more", n)
		for i, was := range complexes(to) {
			if !(real(was) > -9 && real(was) < 9 && imag(was) > -9 && imag(was) < 9) {
				continue
			}
			wantLess, wantMore := was, was
			if i > 0 && i <= n {
				wantLess, wantMore = was-f*from[i-1], was+f*complex(row[i-1], 0)
			}
			for want, got := range map[complex128]complex128{wantLess: complexes(less)[i], wantMore: complexes(more)[i]} {
				if !(real(want) > -1e3 && real(want) < 1e3 && imag(want) > -1e3 && imag(want) < 1e3) {
					continue // of the ends
				}
				require.InDelta(t, real(want), real(got), 1e-13)
				require.InDelta(t, imag(want), imag(got), 1e-13)
			}
		}
	}
	require.Panics(t, func() { SubtractTimes(make([]complex128, 3), 1, make([]complex128, 2)) })
	require.Panics(t, func() { AddTimes(make([]complex128, 2), 1, make([]float64, 3)) })
}
