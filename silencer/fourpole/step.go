package fourpole

import (
	"fmt"
	"math"
)

// Linear is a piece whose matrix is constant plus omega times another constant: area steps, temperature steps,
// series resistances and inertances.
type Linear struct {
	Const, PerOmega Matrix
	Growth, GrowEnd float64 // the second part grows by 1 + Growth w^2, w in it no more than GrowEnd
}

// At is the matrix at omega.
func (l Linear) At(omega float64) Matrix {
	near := math.Min(omega, l.GrowEnd)
	w := complex(omega*(1+l.Growth*near*near), 0)
	a, b := l.Const, l.PerOmega
	return Matrix{a.T11 + w*b.T11, a.T12 + w*b.T12, a.T21 + w*b.T21, a.T22 + w*b.T22}
}

// then chains two linear pieces of which at most one depends on omega.
func (m Matrix) then(l Linear) Linear {
	l.Const, l.PerOmega = m.Mul(l.Const), m.Mul(l.PerOmega)
	return l
}

// Corrections says whether the near field of a step is added as an inertance.
type Corrections bool

// Choices of corrections.
const (
	NoCorrections   Corrections = false
	FullCorrections Corrections = true
)

// StepInertance is the length (m) to be added to the smaller of two coaxial round pipes for the non-propagating
// modes at the step,
//
//	delta = 0.82 a (1 - 1.35 alpha + 0.31 alpha^3),  a small radius, alpha = small/large bore
//
// a fit (from memory) to static mode matching, within 0.002 a for alpha up to 0.6 (derived). Valid well below
// the first radial cut-on of the larger pipe; an offset step has more.
func StepInertance(smallBore, largeBore float64) float64 {
	a := math.Min(smallBore, largeBore) / 2
	al := math.Min(smallBore, largeBore) / math.Max(smallBore, largeBore)
	return math.Max(0, 0.82*a*(1-1.35*al+0.31*al*al*al))
}

// StepLossFactor is K of the stagnation pressure drop K M_d Y_d v_c of a step: (Sd/Su-1)^2 for an expansion (Borda-
// Carnot), (1-Sd/Su)/2 for a contraction (Munjal 1987 and Beranek & Ver, Noise and Vibration Control Engineering, ch.
// 10; the expansion derived again from the Borda loss). Both areas are in m2, up and down the flow.
func StepLossFactor(upArea, downArea float64) float64 {
	r := downArea / upArea
	if r >= 1 {
		return (r - 1) * (r - 1)
	}
	return (1 - r) / 2
}

// NewStep prepares a coaxial step between round cross-sections: in convective variables
//
//	p_c,up = p_c,down + (K M_d Y_d + j w delta/S_small) v_c,  v_c,up = v_c,down
//
// turned into classical ones. Where the media differ the temperature step stands upstream of the area step.
// Entropy waves, of order M^2, are left out.
func NewStep(up, down End, c Corrections) (Linear, error) {
	return newStep(up, down, c, StepLossFactor(up.Area, down.Area))
}

func newStep(up, down End, c Corrections, k float64) (Linear, error) {
	for _, e := range []End{up, down} {
		if err := e.Check(); err != nil {
			return Linear{}, fmt.Errorf("step: %w", err)
		}
	}
	near := End{down.Medium, up.Area, down.Mach * down.Area / up.Area}
	if math.Abs(near.Mach) >= 1 {
		return Linear{}, fmt.Errorf("step: mach number %.2f in the smaller pipe is not subsonic\nhint: check the flow, the temperature and the bore", near.Mach)
	}
	series := Linear{Const: Matrix{1, complex(k*down.Mach*down.Y(), 0), 0, 1}}
	if c {
		small, large := math.Min(up.Area, down.Area), math.Max(up.Area, down.Area)
		d := StepInertance(2*math.Sqrt(small/math.Pi), 2*math.Sqrt(large/math.Pi))
		series.PerOmega.T12 = complex(0, d/small)
		series.Growth, series.GrowEnd = stepGrowth(small, large, d, down.Medium.SoundSpeed)
	}
	out := series
	out.Const, out.PerOmega = out.Const.Mul(down.convective()), out.PerOmega.Mul(down.convective())
	out = near.Classical().then(out)
	return temperatureMatrix(up.Medium, down.Medium).then(out), nil
}

// NewTemperatureStep prepares a sudden change of medium without a change of area: pressure and volume velocity
// are continuous (low Mach number), so that v_up = (rho_up/rho_down) v_down (derived).
func NewTemperatureStep(up, down Medium) (Linear, error) {
	for _, m := range []Medium{up, down} {
		if err := m.Check(); err != nil {
			return Linear{}, fmt.Errorf("temperature step: %w", err)
		}
	}
	return Linear{Const: temperatureMatrix(up, down)}, nil
}

// stepGrowth is how the inertance rises towards the first radial cut-on: the share of the first radial mode in it,
// for a piston delta_1 = (4/R^2) J1(ga)^2/(g^3 J0(gR)^2), grows as 1 + (k/g)^2/2 (derived). It is held from cut-on.
func stepGrowth(small, large, static, soundSpeed float64) (growth, end float64) {
	a, r := math.Sqrt(small/math.Pi), math.Sqrt(large/math.Pi)
	g := modeRoots[FirstRadial] / r
	if static <= 0 {
		return 0, 0
	}
	q := math.J1(g*a) / math.J0(g*r)
	first := math.Min(static, 4/(r*r)*q*q/(g*g*g))
	cut := g * soundSpeed
	return first / static / 2 / (cut * cut), cut
}

func temperatureMatrix(up, down Medium) Matrix {
	return Matrix{T11: 1, T22: complex(up.Density/down.Density, 0)}
}
