package fourpole

import (
	"errors"
	"fmt"
	"math"
)

// Cloud is what drops in a gas do to it at omega: what they add to its inertia, relative, and the factor on its
// compressibility.
type Cloud interface {
	At(omega float64) (drag, kappa complex128)
}

// Drag is a resistance of the mean flow as a small oscillation meets it. A mean gradient G (Pa/m) that gas of
// velocity U works against by drag that goes with U^2 is R' = 2 G/U (derived; one phase: the attenuation F M/(2 D) of
// Ingard & Singhal 1974). Behind bluff obstacles it falls to a half where the gas no longer crosses one in a period
// (exact for an aperture with bias flow, Howe 1979, from memory; as a half here judgement):
//
//	g(w) = r + (1-r)/(1 + (w b/U)^2),  r = 1/2
type Drag struct {
	Resistance float64 // Pa s/m2 per metre of run, or Pa s/m of a lump
	Crossing   float64 // s, size of the obstacles over the velocity
}

// steadyDrag is the share of a drag that is left at high frequency, judgement.
const steadyDrag = 0.5

func (d Drag) at(omega float64) float64 {
	x := omega * d.Crossing
	return d.Resistance * (steadyDrag + (1-steadyDrag)/(1+x*x))
}

// Run is a uniform pipe whose gas meets walls, drag and drops.
type Run struct {
	End         End
	Bore        float64 // m, of the gas
	Length      float64 // m
	Drag        Drag
	Vapour      float64 // mole fraction over a wet wall, below 0.5; 0 = dry wall
	Diffusivity float64 // m2/s of the vapour
	Drops       Cloud   // nil = none
}

// Line is a lossy uniform line,
//
//	Z' = (jw rho/S)[1 + (1-j) d_v/a + drag] + R' g/S
//	Y' = (jw S/(rho c^2))[kappa + (1-j)((gamma-1) d_t + gamma x/(1-x) d_m)/a]
//	T = e^{-M G l} [[cosh G l, Zc sinh G l], [sinh(G l)/Zc, cosh G l]],  G = sqrt(Z'Y'), Zc = Z'/G, l = L/(1-M^2)
//
// with boundary layers d = sqrt(2 nu/w) and so on; a wet wall holds its own temperature and so the vapour pressure
// over it, which draws vapour in and out (derived; Raspet, Hickey & Sabatier 2002 treat the same, from memory).
// Every term has a real part of at least 0, so the line takes sound whatever the values. Valid below the first
// cross mode and for boundary layers thin beside the bore.
type Line struct {
	inertia, give    float64 // 1/S and S/c^2 over the stretched length
	viscous, thermal float64 // layers over a, times sqrt w
	drag             Drag    // over rho S and the stretched length
	drops            Cloud
	mach             float64
}

// NewLine prepares a run.
func NewLine(r Run) (Line, error) {
	if err := r.check(); err != nil {
		return Line{}, fmt.Errorf("lossy line: %w", err)
	}
	m, a := r.End.Medium, r.Bore/2
	l := r.Length / (1 - r.End.Mach*r.End.Mach)
	n := Line{inertia: l / r.End.Area, give: l * r.End.Area / (m.SoundSpeed * m.SoundSpeed), drag: r.Drag, drops: r.Drops, mach: r.End.Mach}
	n.drag.Resistance *= l / (m.Density * r.End.Area)
	if nu := m.Viscosity / m.Density; nu > 0 && m.Prandtl > 0 {
		n.viscous = math.Sqrt(2*nu) / a
		n.thermal = (m.Gamma - 1) * n.viscous / math.Sqrt(m.Prandtl)
	}
	n.thermal += m.Gamma * r.Vapour / (1 - r.Vapour) * math.Sqrt(2*r.Diffusivity) / a
	return n, nil
}

func (r Run) check() error {
	if err := r.End.Check(); err != nil {
		return err
	}
	switch {
	case !(r.Bore > 0):
		return checkBore(r.Bore)
	case !(r.Drag.Resistance >= 0 && r.Drag.Crossing >= 0) || math.IsInf(r.Drag.Resistance, 0):
		return errors.New("a drag can't be negative")
	case !(r.Vapour >= 0 && r.Vapour <= 0.5 && r.Diffusivity >= 0):
		return fmt.Errorf("vapour fraction %.3g lies outside the wet wall (0 to 0.5)", r.Vapour)
	}
	return CheckLengths("run", r.Length)
}

// fadedAway is where more decay is not told apart, Np: 2600 dB, so that nothing runs over.
const fadedAway = 300.0

// whole is impedance and admittance of the whole line, in mass velocity.
func (n *Line) whole(omega float64) (z, y complex128) {
	root := math.Sqrt(omega)
	drag, kappa := complex128(0), complex128(1)
	if n.drops != nil {
		drag, kappa = n.drops.At(omega)
	}
	v, t := n.viscous/root, n.thermal/root
	z = complex(0, omega*n.inertia)*(1+complex(v, -v)+drag) + complex(n.drag.at(omega), 0)
	return z, complex(0, omega*n.give) * (kappa + complex(t, -t))
}

// At is the matrix at omega.
func (n Line) At(omega float64) Matrix {
	z, y := n.whole(omega)
	g := Root(z * y)
	s, c := math.Sincos(imag(g))
	ch, sh := hyperbolic(math.Min(real(g), fadedAway))
	cosh, sinh := complex(c*ch, s*sh), complex(c*sh, s*ch)
	shc := complex128(1)  // sinh(g)/g
	if Size1(g) > 1e-12 { // the next term is g^2/6
		shc = sinh * Inverse(g)
	}
	m := Matrix{cosh, z * shc, y * shc, cosh}
	if n.mach == 0 {
		return m
	}
	s, c = math.Sincos(n.mach * imag(g))
	e := math.Exp(-n.mach * real(g))
	return m.Scale(complex(e*c, -e*s))
}

// Lump is what drag and drops add at one place: the excess over the gas alone of a run that is short beside the
// wavelength, as a series impedance and a shunt behind it.
type Lump struct{ line Line }

// NewLump prepares the excess; the run's own gas and walls are left out.
func NewLump(r Run) (Lump, error) {
	r.Vapour = 0
	r.End.Medium.Viscosity = 0
	n, err := NewLine(r)
	return Lump{n}, err
}

// At is the matrix at omega.
func (l Lump) At(omega float64) Matrix {
	z, y := l.line.whole(omega)
	z -= complex(0, omega*l.line.inertia)
	y -= complex(0, omega*l.line.give)
	return Matrix{1 + z*y, z, y, 1}
}
