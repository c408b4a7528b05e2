package chambers

import (
	"math"
	"testing"

	"hushwake/silencer/fourpole"
)

// The default filling takes sound at any frequency and is Miki's within a hundredth of his range.
func TestDefaultFibreIsPassive(t *testing.T) {
	for _, sigma := range []float64{1000, 10000, 1e5} {
		p := PerforatedTube{
			Medium: fourpole.StandardAir(), Bore: 0.06, ChamberBore: 0.25, Length: 0.6, To: 0.6,
			Wall: fourpole.Perforate{Porosity: 0.27, Hole: 0.0035, Wall: 0.0015}, Fill: &Filling{fourpole.PassiveMiki, sigma},
		}
		plane := must(p.Plane(fourpole.NoCorrections))
		for f := 0.01; f < 20000; f *= 1.7 {
			e := fourpole.FibreFluid(fourpole.PassiveMiki, sigma, 1.204, f)
			heavy, squeeze := e.DensityRatio(), e.Wavenumber/e.Impedance
			if imag(heavy) > 0 || imag(squeeze) > 1e-12 || real(e.Impedance) <= 0 || imag(e.Wavenumber) > 0 {
				t.Errorf("sigma %g, %g Hz: density %v, compressibility %v", sigma, f, heavy, squeeze)
			}
			m := fourpole.FibreFluid(fourpole.Miki, sigma, 1.204, f)
			near(t, 0, fourpole.Size1(m.DensityRatio()-heavy)/fourpole.Size1(heavy), 1e-12, "density at %g Hz", f)
			if f/sigma > 2e-3 {
				near(t, 0, fourpole.Size1(m.Wavenumber-e.Wavenumber), 0, "%g Hz", f)
			}
			if tl := lossAt(plane, p.Inlet(), p.Outlet(), f); tl < -1e-9 || math.IsNaN(tl) {
				t.Errorf("sigma %g, %g Hz: %g dB", sigma, f, tl)
			}
		}
	}
}
