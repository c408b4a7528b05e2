package chambers

import (
	"fmt"
	"hushwake/silencer/fourpole"
	"math"
	"math/cmplx"

	"pgregory.net/rapid"
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// near fails unless got lies within tol of want.
func near(t interface {
	Helper()
	Errorf(string, ...any)
}, want, got, tol float64, what string, args ...any) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.9g, want %.9g +- %g", fmt.Sprintf(what, args...), got, want, tol)
	}
}

func drawMedium(r *rapid.T, what string) fourpole.Medium {
	m := fourpole.StandardAir()
	m.SoundSpeed = rapid.Float64Range(330, 600).Draw(r, what+" c")
	m.Density = rapid.Float64Range(0.4, 1.3).Draw(r, what+" rho")
	return m
}

func drawBore(r *rapid.T, what string, from, to float64) float64 {
	return math.Exp(rapid.Float64Range(math.Log(from), math.Log(to)).Draw(r, what))
}

func sameMatrix(t interface {
	Helper()
	Errorf(string, ...any)
}, a, b fourpole.Matrix, y, tol float64, what string) {
	t.Helper()
	c := complex(y, 0)
	size := 1 + cmplx.Abs(a.T11) + cmplx.Abs(a.T12/c) + cmplx.Abs(a.T21*c) + cmplx.Abs(a.T22)
	d := cmplx.Abs(a.T11-b.T11) + cmplx.Abs((a.T12-b.T12)/c) + cmplx.Abs((a.T21-b.T21)*c) + cmplx.Abs(a.T22-b.T22)
	if !(d <= tol*size) {
		t.Errorf("%s: %v differs from %v by %g", what, a, b, d)
	}
}
