package structure

import (
	"fmt"
	"math"
	"math/cmplx"
)

// Kind is a sort of engine mount.
type Kind string

// Kinds of mounts. Unstated stands half way, in dB, between Rigid and Rubber.
const (
	Rigid       Kind = "rigid"
	StiffRubber Kind = "stiff rubber"
	Rubber      Kind = "rubber"
	Soft        Kind = "soft"
	Double      Kind = "double"
	Unstated    Kind = ""
)

// mountKind is a row of mounts.csv.
type mountKind struct {
	words                    string
	deflection, thrust, free float64 // m; horizontal over vertical stiffness
}

// Kinds lists those that can be named, in the order of mounts.csv.
var mountKinds, Kinds = mustMounts(mountsText)

// Figures of rubber mounts.
const (
	RubberStiffening = 1.4   // dynamic over static stiffness (from memory: 1.2 to 2 with hardness)
	rubberDamping    = 0.12  // loss factor (from memory: 0.05 to 0.3)
	rubberMass       = 0.005 // of a mount over the engine's mass on it (judgement)
	gravity          = 9.80665
	MostDeflection   = 0.030
)

// TypicalDeflection is the static deflection of a kind of mount, m (judgement); 0 for rigid feet.
func TypicalDeflection(k Kind) float64 {
	return rowOf(k).deflection
}

// Words are those in which the interview asks for a kind; "" = it does not.
func (k Kind) Words() string { return mountKinds[k].words }

func rowOf(k Kind) mountKind {
	if k == Unstated {
		k = Rubber
	}
	return mountKinds[k]
}

// Mount is what carries an engine, one at each foot.
type Mount struct {
	Kind       Kind
	Frequency  float64 // Hz, vertical natural frequency of the engine on its mounts
	Stiffening float64 // horizontal over vertical stiffness
	Second     float64 // Hz, natural frequency of a second stage below; 0 = none
}

// DeflectionFrequency is the natural frequency on mounts that give by delta, m, under the load, Hz:
// sqrt(chi g/delta)/2 pi, chi being the dynamic over the static stiffness.
func DeflectionFrequency(delta, chi float64) float64 {
	return math.Sqrt(chi*gravity/delta) / (2 * math.Pi)
}

// StiffnessFrequency is that of a mass in kg on each mount of that static stiffness, N/m.
func StiffnessFrequency(stiffness, chi, mass float64) float64 {
	return math.Sqrt(chi*stiffness/mass) / (2 * math.Pi)
}

// Stiffening is horizontal over vertical stiffness by what the mounts carry.
func Stiffening(k Kind, thrust bool) float64 {
	if thrust {
		return rowOf(k).thrust
	}
	return rowOf(k).free
}

// Amplification is by how much the engine on its mounts passes on a force of f Hz, dB: above zero under
// sqrt 2 times the natural frequency. One mass on springs with a loss factor.
func (m Mount) Amplification(f float64) float64 {
	return transmissibility(f/m.Frequency, rubberDamping)
}

// transmissibility is that of one mass on a spring with loss factor eta at the frequency ratio r, dB.
func transmissibility(r, eta float64) float64 {
	k := complex(1, eta)
	return 20 * math.Log10(cmplx.Abs(k/(k-complex(r*r, 0))))
}

// spring is one direction of a mount: its mobility at f under a mass on it, kg.
type spring struct {
	k, eta, standing float64 // N/m, loss factor, Hz of the first standing wave in the rubber
}

// newSpring is the mount on which a mass in kg has the natural frequency f0, Hz; rubber is the mount's own
// moving mass, kg, for its standing waves.
func newSpring(f0, eta, mass, rubber float64) spring {
	w := 2 * math.Pi * f0
	return spring{k: w * w * mass, eta: eta, standing: math.Pi * f0 * math.Sqrt(mass/rubber)}
}

// Mobility is that between the ends, the far one held: of a rod with internal damping.
func (s spring) Mobility(f float64) complex128 {
	k := complex(s.k, s.k*s.eta) * rodStiffening(math.Pi*f/s.standing, s.eta)
	return complex(0, 2*math.Pi*f) / k
}

// rodStiffening is the transfer stiffness of a rod over its static one, x/sin x with
// x made complex by the loss factor; x is pi times the frequency over that of the first standing wave.
func rodStiffening(x, eta float64) complex128 {
	xc := complex(x, -math.Min(eta*x/2, 50))
	if cmplx.Abs(xc) < 1e-6 {
		return 1
	}
	return xc / cmplx.Sin(xc)
}

// check refuses mounts that cannot be.
func (m Mount) check() error {
	if m.Kind == Rigid {
		return nil
	}
	if !(m.Frequency > 0) || !(m.Stiffening > 0) || m.Second < 0 || math.IsInf(m.Frequency, 0) {
		return fmt.Errorf("mounts of %g Hz, stiffness ratio %g, second stage %g Hz: the first two must be above zero", m.Frequency, m.Stiffening, m.Second)
	}
	return nil
}
