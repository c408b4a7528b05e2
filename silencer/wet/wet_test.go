package wet

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g within %.2g", what, got, want, tolerance)
	}
}

func TestLibraryValues(t *testing.T) {
	f := Flow{Gas: .4, Water: .6, GasDensity: 2.5, WaterDensity: 800, GasViscosity: 1e-5, WaterViscous: 1e-3, Tension: .066, Bore: .3}
	near(t, "Nicklin", f.DriftFlux(), .67988266, 1e-8)
	f = Flow{Gas: .06, Water: .54, GasDensity: 2.67, WaterDensity: 915, GasViscosity: 14e-6, WaterViscous: 180e-6, Tension: .0487, Bore: .05}
	p, _ := f.LockhartMartinelli()
	near(t, "Lockhart-Martinelli", p, 716.4696, 0.07)
	f = NewFlow(1, 1, 1.05, 2e-5, .05)
	near(t, "Turner", f.CarryVelocity(), 15.26, .01)
	near(t, "slug", Head(1015, 1.067), 10620, 5)
	near(t, "slug half", Head(1015, .5), 4980, 5)
}

// Void models of the riser on six runs: kPa per metre by homogeneous, Lockhart-Martinelli, drift flux,
// Rouhani; friction kPa per metre; Wallis number.
func TestRiserTable(t *testing.T) {
	for _, r := range []struct{ gas, water, rho, bore, hom, lm, drift, rou, fr, j float64 }{
		{.0552, .5613, 1.050, .050, .11, 1.26, 1.81, 2.27, 1.25, 1.23},
		{.0552, .5613, 1.050, .0635, .11, 1.26, 1.86, 2.82, .40, .68},
		{.0552, .5613, 1.050, .076, .11, 1.26, 1.93, 3.30, .17, .43},
		{.2699, 2.5532, 1.069, .125, .11, 1.22, 1.87, 2.96, .25, .60},
		{.01626, .1357, 1.053, .038, .10, 1.14, 1.84, 2.89, .44, .72},
		{.01626, .1357, 1.053, .045, .10, 1.14, 1.90, 3.35, .20, .47},
	} {
		f := NewFlow(r.gas, r.water, r.rho, 1.95e-5, r.bore)
		p, void := f.LockhartMartinelli()
		t.Logf("%v jg %.2f jl %.3f: %.3f %.3f %.3f %.3f fr %.3f j %.3f", r, f.GasVelocity(), f.WaterVelocity(), f.HeadPerMetre(f.Homogeneous())/1e3, f.HeadPerMetre(void)/1e3, f.HeadPerMetre(f.DriftFlux())/1e3, f.HeadPerMetre(f.Rouhani())/1e3, p/1e3, f.Wallis())
	}
}
