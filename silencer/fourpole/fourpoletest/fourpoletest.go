// Package fourpoletest is what the tests of four-poles and of chambers share. It knows no four-pole, so that the tests of
// that package can use it.
package fourpoletest

import (
	"fmt"
	"math"
	"math/cmplx"

	"pgregory.net/rapid"

	"hushwake/source/published/publishedtest"
)

// Must is a value that cannot fail in a test.
func Must[V any](v V, err error) V {
	if err != nil {
		panic(err)
	}
	return v
}

// Near fails unless got lies within tol of want.
func Near(t publishedtest.T, want, got, tol float64, what string, args ...any) {
	t.Helper()
	publishedtest.Near(t, fmt.Sprintf(what, args...), got, want, tol)
}

// DrawBore draws a bore, m, evenly on a logarithmic scale.
func DrawBore(r *rapid.T, what string, from, to float64) float64 {
	return math.Exp(rapid.Float64Range(math.Log(from), math.Log(to)).Draw(r, what))
}

type matrix struct{ T11, T12, T21, T22 complex128 }

// SameMatrix fails unless two four-poles are alike within tol of their size, seen from a line of admittance 1/y.
func SameMatrix[M ~struct{ T11, T12, T21, T22 complex128 }](t publishedtest.T, first, second M, y, tol float64, what string) {
	t.Helper()
	a, b, c := matrix(first), matrix(second), complex(y, 0)
	size := 1 + cmplx.Abs(a.T11) + cmplx.Abs(a.T12/c) + cmplx.Abs(a.T21*c) + cmplx.Abs(a.T22)
	d := cmplx.Abs(a.T11-b.T11) + cmplx.Abs((a.T12-b.T12)/c) + cmplx.Abs((a.T21-b.T21)*c) + cmplx.Abs(a.T22-b.T22)
	if !(d <= tol*size) {
		t.Errorf("%s: %v differs from %v by %g", what, a, b, d)
	}
}
