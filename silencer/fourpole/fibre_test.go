package fourpole

import (
	"math"
	"testing"
)

// The default filling takes sound at any frequency and is Miki's within a hundredth of his range.
func TestDefaultFibreIsPassive(t *testing.T) {
	for _, sigma := range []float64{1000, 10000, 1e5} {
		p := PerforatedTube{
			Medium: StandardAir(), Bore: 0.06, ChamberBore: 0.25, Length: 0.6, To: 0.6,
			Wall: Perforate{0.27, 0.0035, 0.0015}, Fill: &Filling{PassiveMiki, sigma},
		}
		plane := must(p.Plane(NoCorrections))
		for f := 0.01; f < 20000; f *= 1.7 {
			e := FibreFluid(PassiveMiki, sigma, 1.204, f)
			heavy, squeeze := e.DensityRatio(), e.Wavenumber/e.Impedance
			if imag(heavy) > 0 || imag(squeeze) > 1e-12 || real(e.Impedance) <= 0 || imag(e.Wavenumber) > 0 {
				t.Errorf("sigma %g, %g Hz: density %v, compressibility %v", sigma, f, heavy, squeeze)
			}
			m := FibreFluid(Miki, sigma, 1.204, f)
			near(t, 0, size1(m.DensityRatio()-heavy)/size1(heavy), 1e-12, "density at %g Hz", f)
			if f/sigma > 2e-3 {
				near(t, 0, size1(m.Wavenumber-e.Wavenumber), 0, "%g Hz", f)
			}
			if tl := lossAt(plane, p.Inlet(), p.Outlet(), f); tl < -1e-9 || math.IsNaN(tl) {
				t.Errorf("sigma %g, %g Hz: %g dB", sigma, f, tl)
			}
		}
	}
}
