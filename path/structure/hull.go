package structure

import (
	"fmt"
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// HullCited cites the power balance of the hull.
var HullCited = published.By("eta_ij = 2 cB L tau/(2 pi^2 f S), power balance; + 0, 4, 6 dB for other wave types; at most the feet's velocity - 5 dB a space",
	"Hopkins, Sound Insulation (2007), eq. (2.154) and 5.2.1.3; EN 12354-5:2009 F.1 for the other wave types; the ceiling is judgement", "derived")

// teeTransmission is the power transmission of bending waves straight through a T of equal plates, 4/27,
// and those round an X and an L of equal plates (Hopkins 5.2.1.3, normal incidence).
const (
	teeTransmission    = 4.0 / 27
	crossTransmission  = 1.0 / 12
	cornerTransmission = 1.0 / 3
)

// Space is the plating of one space on the way.
type Space struct {
	Area    float64 // m2 that shakes and radiates
	Girth   float64 // m round floor and sides: of a junction, the smaller of two
	Plate   float64 // m
	Damping float64 // loss factor
}

// furtherShare is what of the faces of a space further on is hull plating (judgement).
const furtherShare = 0.6

// NewSpace is the plating of a space of that length, breadth and height, m: bottom and sides of the
// engine's own, three fifths of all faces of one further on.
func NewSpace(size [3]float64, engine bool, plate, damping float64) Space {
	l, b, h := size[0], size[1], size[2]
	s := Space{Area: l*b + 2*h*(l+b), Girth: b + 2*h, Plate: plate, Damping: damping}
	if !engine {
		s.Area = furtherShare * 2 * (l*b + l*h + b*h)
	}
	return s
}

// Hull is the way of the sound: spaces from the engine's own to the listener's.
type Hull struct {
	Material Material
	Spaces   []Space
}

// Water on the plating of the engine's space (judgement), its added mass from memory: rho/kB, one side.
const wetShare = 0.6

// Other wave types bring more than bending alone further on, dB by number of junctions.
var otherWaves = [4]float64{0, 0, 4, 6}

// ceilingStep is what the velocity loses at least for each space, dB (judgement): below the first
// modes of the fields plates go with the frames.
const ceilingStep = 5.0

func (h Hull) check() error {
	if len(h.Spaces) == 0 {
		return fmt.Errorf("a hull without a space carries no sound")
	}
	for _, s := range h.Spaces {
		if !(s.Area > 0) || !(s.Girth > 0) || !(s.Plate > 0) || !(s.Damping > 0) || math.IsInf(s.Area+s.Girth+s.Plate+s.Damping, 0) {
			return fmt.Errorf("plates of %g m2, %g m round, %g m thick, loss factor %g: all must be above zero", s.Area, s.Girth, s.Plate, s.Damping)
		}
	}
	return nil
}

// coupling is the coupling loss factor from space i to its neighbour j at f.
func (h Hull) coupling(i, j int, f float64) float64 {
	a, b := h.Spaces[i], h.Spaces[j]
	if j < i { // reciprocity: eta_ji n_j = eta_ij n_i, n ~ S/h
		return h.coupling(j, i, f) * (b.Area / b.Plate) / (a.Area / a.Plate)
	}
	cB := bendingSpeed(h.Material.Speed, a.Plate, f)
	return 2 * cB * math.Min(a.Girth, b.Girth) * teeTransmission / (2 * math.Pi * math.Pi * f * a.Area)
}

// Energies are those of the plates for 1 W into the first, J, at f: the balance of what comes in,
// goes on and is lost in each. It is tridiagonal and diagonally dominant.
func (h Hull) Energies(f float64) []float64 {
	n := len(h.Spaces)
	w := 2 * math.Pi * f
	diagonal, upper, lower := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, s := range h.Spaces {
		diagonal[i] = w * s.Damping
		for _, j := range []int{i - 1, i + 1} {
			if j >= 0 && j < n {
				diagonal[i] += w * h.coupling(i, j, f)
			}
		}
		if i+1 < n {
			upper[i], lower[i+1] = -w*h.coupling(i+1, i, f), -w*h.coupling(i, i+1, f)
		}
	}
	e := make([]float64, n)
	e[0] = 1
	for i := 1; i < n; i++ {
		r := lower[i] / diagonal[i-1]
		diagonal[i] -= r * upper[i-1]
		e[i] -= r * e[i-1]
	}
	for i := n - 1; i >= 0; i-- {
		if i+1 < n {
			e[i] -= upper[i] * e[i+1]
		}
		e[i] /= diagonal[i]
	}
	return e
}

// Velocity is the velocity level of the plates of the last space for a power into the bed, dB re
// 5e-8 m/s, at most ceiling, the velocity level below the mounts, less 5 dB for each space.
func (h Hull) Velocity(power, ceiling spectrum.Bands) (lv spectrum.Bands, err error) {
	if err := h.check(); err != nil {
		return lv, err
	}
	j := len(h.Spaces) - 1
	last := h.Spaces[j]
	more := otherWaves[min(j, 3)]
	for b, f := range spectrum.Exact {
		e := h.Energies(f)[j] * spectrum.Power(power[b]) * referencePower
		mass := h.Material.Density * last.Plate
		if j == 0 {
			mass += wetShare * waterDensity * bendingSpeed(h.Material.Speed, last.Plate, f) / (2 * math.Pi * f)
		}
		v2 := e / (mass * last.Area)
		lv[b] = math.Min(10*math.Log10(v2/(ReferenceVelocity*ReferenceVelocity))+more, ceiling[b]-ceilingStep*float64(j))
	}
	return lv, nil
}
