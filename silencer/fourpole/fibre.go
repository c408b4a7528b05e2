package fourpole

import (
	"fmt"
	"math"
	"math/cmplx"
)

// Fibre names a model of a fibrous bulk absorber.
type Fibre int

// Fibre models.
const (
	AllardChampoux Fibre = iota
	DelanyBazley
	Miki
	PassiveMiki // Miki where it takes sound; far below its range, where it would make some, its compressibility is held real
)

// fibreLaw holds Z/Z0 = 1 + a X^-b - j c X^-d and k/k0 = 1 + e X^-f - j g X^-h.
type fibreLaw struct {
	name, source           string
	a, b, c, d, e, f, g, h float64
}

// In X = rho f/sigma. Delany & Bazley (1970) and Miki (1990) are printed in 10^3 f/sigma, f/sigma in air; they
// are read here at the density of air at 20 C, 1.204 kg/m3.
var fibreLaws = [...]fibreLaw{
	AllardChampoux: {"Allard-Champoux", "Allard & Champoux, refit of Delany-Bazley (read)",
		0.0571, 0.754, 0.0870, 0.732, 0.0978, 0.700, 0.1890, 0.595},
	DelanyBazley: {"Delany-Bazley", "Delany & Bazley 1970 (read)",
		9.08, 0.75, 11.9, 0.73, 10.8, 0.70, 10.3, 0.59},
	Miki:        {"Miki", "Miki 1990 (read)", 5.50, 0.632, 8.43, 0.632, 7.81, 0.618, 11.41, 0.618},
	PassiveMiki: {"Miki", "Miki 1990 (read), held passive below f/sigma of 0.001 (derived)", 5.50, 0.632, 8.43, 0.632, 7.81, 0.618, 11.41, 0.618},
}

// String is the author's name.
func (f Fibre) String() string { return fibreLaws[f].name }

// Equivalent is a fibrous absorber as an equivalent fluid.
type Equivalent struct {
	Impedance  complex128 // Zw/Z0
	Wavenumber complex128 // kw/k0
}

// DensityRatio is the ratio of its effective density to that of the gas, (Zw/Z0)(kw/k0).
func (e Equivalent) DensityRatio() complex128 { return e.Impedance * e.Wavenumber }

// FibreFluid is the equivalent fluid at frequency (Hz) in a gas of density (kg/m3) for the flow resistivity
// sigma (Pa s/m2) in that gas. All three laws were fitted to 0.01 < f/sigma < 1; see FibreInRange.
func FibreFluid(f Fibre, resistivity, density, frequency float64) Equivalent {
	l := fibreLaws[f]
	x := density * frequency / resistivity
	if f != AllardChampoux {
		x *= 1000 / 1.204
	}
	lx := math.Log(x)
	p := func(c, e float64) float64 { return c * math.Exp(-e*lx) }
	e := Equivalent{
		Impedance:  complex(1+p(l.a, l.b), -p(l.c, l.d)),
		Wavenumber: complex(1+p(l.e, l.f), -p(l.g, l.h)),
	}
	if f == PassiveMiki {
		return e.passive()
	}
	return e
}

// passive holds the compressibility kw/Zw to what takes energy, Im <= 0, and keeps the density.
func (e Equivalent) passive() Equivalent {
	squeeze, heavy := e.Wavenumber/e.Impedance, e.DensityRatio()
	if imag(squeeze) <= 0 {
		return e
	}
	squeeze = complex(real(squeeze), 0)
	k := cmplx.Sqrt(heavy * squeeze) // Re > 0 and, as Im heavy < 0, Im < 0
	return Equivalent{Impedance: k / squeeze, Wavenumber: k}
}

// FibreRange is the band (Hz) in which the laws were fitted, 0.01 < rho f/(1.204 sigma) < 1. Units are those of
// FibreFluid: Pa s/m2 and kg/m3.
func FibreRange(resistivity, density float64) (low, high float64) {
	per := resistivity * 1.204 / density
	return 0.01 * per, per
}

// HotResistivity scales a flow resistivity measured in air at 20 C to a gas of this viscosity (Pa s): the flow through
// fibres is viscous, so it goes as the viscosity (1.813e-5 Pa s in air at 20 C; derived). Both resistivities are in Pa
// s/m2.
func HotResistivity(at20 float64, viscosity float64) (float64, error) {
	if !(at20 > 0) || !(viscosity > 0) {
		return 0, fmt.Errorf("flow resistivity %g Pa s/m2 and viscosity %g Pa s must be positive", at20, viscosity)
	}
	return at20 * viscosity / 1.813e-5, nil
}
