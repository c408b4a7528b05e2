package fourpole

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
)

// Outlet is the open end of a round pipe.
//
// At rest R = -|R| e^{-2jk delta} by the rational fits of Dalmont, Nederveen & Joly (J. Sound Vib. 244, 2001):
// unflanged within 0.9 % in |R| to ka = 2 and 0.4 % in delta to ka = 1.5 of the exact solution (levineSchwinger of the tests).
// With outflow |R| grows by ((1+M)/(1-M))^0.9 (Ingard & Singhal 1975, from memory) and delta shrinks by 1-M^2
// (Davies et al. 1980, from memory): the pressure may reflect by more than 1, the energy never does. Above ka = 3.8
// a pipe carries radial modes: there only the trend to no reflection is kept.
type Outlet struct {
	end     End
	radius  float64
	flanged bool
	gain    float64 // of |R| by flow
	shrink  float64 // of delta by flow
	outside *Medium // nil = the gas of the pipe
}

// Into is the end of a pipe of hot or cold gas in another gas outside, such as the open air. The air
// outside rules the radiation: the impedance is that of the air at its own ka, carried over at equal
// volume velocity, and what is heard far off is the volume velocity squared times its resistance
// (a small source displaces the air about it; derived). The flow acts on the reflection as in Outlet.
func (o Outlet) Into(outside Medium) Outlet {
	o.outside = &outside
	return o
}

// NewOutlet prepares the open end of a pipe of this bore (m). mach is the flow's Mach number.
func NewOutlet(m Medium, bore, mach float64, flanged bool) (Outlet, error) {
	e := PipeEnd(m, bore, mach)
	if err := e.Check(); err != nil || !(bore > 0) {
		err = errors.Join(err, checkBore(bore))
		return Outlet{}, fmt.Errorf("outlet: %w", err)
	}
	return Outlet{end: e, radius: bore / 2, flanged: flanged, gain: math.Pow((1+mach)/(1-mach), 0.9), shrink: 1 - mach*mach}, nil
}

// endFit gives 1-|R| as lost/den, so that nothing cancels at low frequency, and the end correction.
func endFit(x float64, flanged bool) (lost, den, correction float64) {
	q := x * x
	if flanged {
		return q, 1 + 0.323*x + 0.923*q, 0.8216 / (1 + 0.77*0.77*q)
	}
	s := math.Sin(2 * x)
	return 0.5 * q, 1 + 0.2*x + 0.416*q, 0.6133 * ((1+0.044*q)/(1+0.19*q) - 0.02*s*s)
}

// Reflection is R = p-/p+ at the end and 1+R, which is kept apart as it is small at low frequency.
func (o Outlet) Reflection(omega float64) (r, onePlus complex128) {
	if o.outside != nil {
		return o.reflectionInto(omega)
	}
	k := omega / o.end.Medium.SoundSpeed
	lost, den, corr := endFit(k*o.radius, o.flanged)
	rest := math.Max(0, 1-lost/den)
	modulus := rest * o.gain
	missing := 1 - modulus // may be negative with flow
	if o.gain == 1 {
		missing = math.Min(1, lost/den)
	}
	half := k * corr * o.shrink * o.radius
	s, c := math.Sincos(half)
	turn := complex(2*s*s, 2*s*c) // 1 - e^{-2jk delta}
	onePlus = complex(missing, 0) + complex(modulus, 0)*turn
	return onePlus - 1, onePlus
}

// atRest is the end without flow and without an outside gas of its own.
func (o Outlet) atRest(m Medium) Outlet {
	return Outlet{end: PipeEnd(m, 2*o.radius, 0), radius: o.radius, flanged: o.flanged, gain: 1, shrink: 1}
}

// reflectionInto is the reflection in the pipe's gas of the impedance that the gas outside sets, with
// modulus and length changed by the flow.
func (o Outlet) reflectionInto(omega float64) (r, onePlus complex128) {
	y := complex(o.end.Y(), 0)
	z := o.atRest(*o.outside).Impedance(omega) * complex(o.outside.Density/o.end.Medium.Density, 0)
	if o.gain == 1 {
		return (z - y) / (z + y), 2 * z / (z + y)
	}
	modulus, phase := cmplx.Polar(-(z - y) / (z + y))
	r = -cmplx.Rect(modulus*o.gain, phase*o.shrink)
	return r, 1 + r
}

// radiates is the power sent far off per squared mass velocity, times two; see Termination.
func (o Outlet) radiates(omega float64) float64 {
	if o.outside == nil {
		return 0
	}
	ratio := o.outside.Density / o.end.Medium.Density
	return real(o.atRest(*o.outside).Impedance(omega)) * ratio * ratio / o.outside.Density
}

// Impedance is p/v at the end, Y (1+R)/(1-R).
func (o Outlet) Impedance(omega float64) complex128 {
	r, onePlus := o.Reflection(omega)
	return complex(o.end.Y(), 0) * onePlus / (1 - r)
}

// Termination is the load the end puts on a line.
func (o Outlet) Termination(omega float64) Termination {
	return Termination{o.Impedance(omega), o.end, o.radiates(omega)}
}
