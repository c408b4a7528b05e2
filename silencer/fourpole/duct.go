package fourpole

import (
	"fmt"
	"math"
)

// Loss says what the walls of a duct take from the sound.
type Loss int

// Wall losses.
const (
	Lossless     Loss = iota
	ViscoThermal      // Kirchhoff's wide-tube attenuation, and turbulence when there is flow
)

// Duct is a uniform pipe with mean flow,
//
//	T = e^{-jM kc L} [[cos kc L, jY sin kc L], [(j/Y) sin kc L, cos kc L]],
//	kc = (w/c + a - j(a + xi |M|)) / (1 - M^2),  Y = c/S
//
// where a is the visco-thermal and xi|M| the turbulent attenuation (Munjal, Acoustics of Ducts and Mufflers,
// 1987, section 3; from memory). Y is that of the pipe without loss. Valid below the first cross mode.
type Duct struct {
	y, invY, mach float64
	perC          float64 // stretched length / c
	wall          float64 // a times stretched length per sqrt(omega)
	turb          float64 // turbulent loss over the stretched length, Np
}

// NewDuct prepares a pipe of circular bore and length in m. mach is the flow's Mach number.
func NewDuct(m Medium, bore, length, mach float64, loss Loss) (Duct, error) {
	if !(bore > 0) {
		return Duct{}, fmt.Errorf("duct: bore %g m must be positive", bore)
	}
	return NewDuctArea(m, CircleArea(bore), math.Pi*bore, length, mach, loss)
}

// NewDuctArea prepares a duct by its area (m2) and wetted perimeter (m). The length is in m, mach the flow's Mach
// number.
func NewDuctArea(m Medium, area, perimeter, length, mach float64, loss Loss) (Duct, error) {
	e := End{m, area, mach}
	if err := e.Check(); err != nil {
		return Duct{}, fmt.Errorf("duct: %w", err)
	}
	if err := CheckLengths("duct", length, perimeter); err != nil {
		return Duct{}, err
	}
	stretched := length / (1 - mach*mach)
	d := Duct{y: e.Y(), invY: 1 / e.Y(), mach: mach, perC: stretched / m.SoundSpeed}
	if loss == ViscoThermal && perimeter > 0 {
		hydraulic := 4 * area / perimeter
		d.wall = WallAttenuation(m, hydraulic/2, 1) * stretched
		d.turb = TurbulentAttenuation(m, hydraulic, mach) * stretched
	}
	return d, nil
}

// At is the matrix at omega. One real sine and cosine and at most one exponential replace complex functions.
func (d Duct) At(omega float64) Matrix {
	r := running{m: Identity(), omega: omega, root: math.Sqrt(omega)}
	d.follow(&r)
	return r.result()
}

// joined is two ducts of one Y and Mach number as one: their arguments add.
func (d *Duct) joined(o Duct) (sum Duct, ok bool) {
	if d.y != o.y || d.mach != o.mach {
		return sum, false
	}
	sum = *d
	sum.perC, sum.wall, sum.turb = d.perC+o.perC, d.wall+o.wall, d.turb+o.turb
	return sum, true
}

// trig gives cos and sin of x - jy with y >= 0, and x and y themselves.
func (d *Duct) trig(omega, root float64) (cosine, sine complex128, x, y float64) {
	wall := d.wall * root
	x, y = d.perC*omega+wall, wall+d.turb
	s, c := math.Sincos(x)
	if y == 0 {
		return complex(c, 0), complex(s, 0), x, y
	}
	ch, sh := hyperbolic(y)
	return complex(c*ch, s*sh), complex(s*ch, -c*sh), x, y
}

// hyperbolic is cosh y and sinh y, by series where y is small.
func hyperbolic(y float64) (ch, sh float64) {
	q := y * y
	switch {
	case q < 0.03*0.03: // the next terms are below 2e-17
		return 1 + q*(1.0/2+q*(1.0/24+q*(1.0/720))), y * (1 + q*(1.0/6+q*(1.0/120+q*(1.0/5040))))
	case q < 0.2*0.2:
		ch = 1 + q*(1.0/2+q*(1.0/24+q*(1.0/720+q*(1.0/40320+q*(1.0/3628800)))))
		return ch, y * (1 + q*(1.0/6+q*(1.0/120+q*(1.0/5040+q*(1.0/362880+q*(1.0/39916800))))))
	}
	e := math.Exp(y)
	return (e + 1/e) / 2, (e - 1/e) / 2
}

// WallAttenuation is Kirchhoff's attenuation in a wide tube of radius m, Np/m,
//
//	a = (1/(r c)) sqrt(w nu/2) [1 + (gamma-1)/sqrt(Pr)]
//
// (Kirchhoff 1868, as in Pierce, Acoustics, and Munjal 1987; from memory). Valid where the boundary layer is thin
// beside the radius. A medium without viscosity or Prandtl number has none. omega is in rad/s.
func WallAttenuation(m Medium, radius, omega float64) float64 {
	if m.Viscosity <= 0 || m.Prandtl <= 0 || radius <= 0 {
		return 0
	}
	nu := m.Viscosity / m.Density
	return math.Sqrt(omega*nu/2) * (1 + (m.Gamma-1)/math.Sqrt(m.Prandtl)) / (radius * m.SoundSpeed)
}

// TurbulentAttenuation is the loss that mean flow adds, Np/m,
//
//	xi |M|, xi = F/(2d), F = 0.0072 + 0.612/Re^0.35
//
// (Munjal 1987; from memory). It is zero at rest or in a medium without viscosity. The diameter d is in m, mach the
// flow's Mach number.
func TurbulentAttenuation(m Medium, diameter, mach float64) float64 {
	if m.Viscosity <= 0 || mach == 0 || diameter <= 0 {
		return 0
	}
	speed := math.Abs(mach) * m.SoundSpeed
	re := m.Density * speed * diameter / m.Viscosity
	return (0.0072 + 0.612/math.Pow(re, 0.35)) / (2 * diameter) * math.Abs(mach)
}
