package vector

import (
	"math/cmplx"
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

// Sums of inverses have the same bits both ways and are those of complex arithmetic; a number itself, and modes that fill up,
// add nothing.
func TestInversesBothWays(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for n := range 60 {
		x, g, v := complexes(normals(r, 2*n)), make([]float64, n&^3), make([]float64, n&^3)
		z, d := complex(r.NormFloat64(), r.NormFloat64()), complex(r.NormFloat64(), r.NormFloat64())
		clean := true
		for i := range x {
			if r.IntN(7) == 0 {
				x[i] = z
			}
			clean = clean && cmplx.Abs(x[i]) < 9
		}
		for i := range g {
			if g[i], v[i] = 30*r.Float64(), r.NormFloat64(); r.IntN(5) == 0 {
				g[i], v[i] = 1e150, 0
			}
		}
		got := both(t, make([]float64, 8), func(to []float64) {
			a, b, c := Poles(d, g, v)
			pairs([]complex128{Inverses(x, z), a, b, c}, to)
		})
		var want [4]complex128
		for _, y := range x {
			if y != z {
				want[0] += 1 / (z - y)
			}
		}
		for i := range g {
			inv := 1 / (d + complex(g[i]*g[i], 0))
			t := inv * complex(v[i]*v[i], 0)
			want[1], want[2], want[3] = want[1]+t, want[2]+t*inv, want[3]+inv
		}
		for i, w := range want {
			if i > 0 || clean {
				require.InDelta(t, 0, cmplx.Abs(w-complex(got[2*i], got[2*i+1])), 1e-12*(1+cmplx.Abs(w))*float64(1+n), "%d of %d", i, n)
			}
		}
	}
}
