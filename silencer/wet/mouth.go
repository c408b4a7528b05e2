package wet

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// Outlet in the water.
const (
	closedLoss   = 20.0 // dB, a mouth whose bubbles close under water: between the gas-water step of 29.8 dB and what bubbles make, judgement
	UsualWaves   = 0.05 // m, deviation of the level at the outlet, judgement
	awashDoubt   = 1.5  // dB, judgement
	closedDoubt  = 6.0  // dB, judgement
	seaDensity   = 1025.0
	levelPoints  = 81
	levelReaches = 4.0 // deviations each side
)

// Mouth is the end of an exhaust at the water.
type Mouth struct {
	Bore       float64 // m
	Depth      float64 // m of its axis under the mean level; negative = above
	Waves      float64 // m, standard deviation of the level
	Gas        float64 // m3/s through it
	GasDensity float64 // kg/m3
	Mach       float64
}

// Check says whether the model can be asked.
func (m Mouth) Check() error {
	if !(m.Bore > 0 && m.Waves >= 0 && m.Gas >= 0 && m.GasDensity > 0 && m.Mach >= 0 && m.Mach < 1) || math.IsNaN(m.Depth) {
		return fmt.Errorf("outlet at the water: bore %g m, waves %g m, gas %g m3/s and %g kg/m3 must be sound values", m.Bore, m.Waves, m.Gas, m.GasDensity)
	}
	return nil
}

// Bubble is the diameter of the bubbles in which the gas leaves under water, m: V = 1.138 Q^(6/5) g^(-3/5) (Davidson
// and Schueler 1960, constant from memory).
func (m Mouth) Bubble() float64 { return 1.295 * math.Pow(m.Gas*m.Gas/gravity, 0.2) }

// held is the least open share of a mouth: the gas pushes the water down until rho (U/s)^2/2 = rw g D (1 - s).
func (m Mouth) held() float64 {
	u := m.Gas / area(m.Bore)
	push := m.GasDensity * u * u / 2 / (seaDensity * gravity * m.Bore)
	low, high := 0.0, 2.0/3 // above it the push needs less water, not more: the mouth blows free
	for range 40 {
		if s := (low + high) / 2; push > (1-s)*s*s {
			low = s
		} else {
			high = s
		}
	}
	return high
}

// dry is the share of the mouth's area over a level that stands a height (m) over its axis.
func (m Mouth) dry(level float64) float64 {
	x := math.Max(-1, math.Min(1, 2*level/m.Bore))
	return (math.Acos(x) - x*math.Sqrt(1-x*x)) / math.Pi
}

// through is the energy that passes at one level (m over the axis): a constriction with flow where the mouth is partly
// covered, and where it lies deeper the share of bubbles that burst open before they leave,
//
//	tau_o = 4 s/(1+s)^2 (1 + M(1/s^2 - 1)/2)^-2,  tau = (1 - psi) tau_o + psi 10^-2,  psi = h/d_b held to 0..1
func (m Mouth) through(level, held, bubble float64) (tau, closed float64) {
	s := math.Max(held, m.dry(level))
	open := 4 * s / ((1 + s) * (1 + s))
	jet := 1 + m.Mach*(1/(s*s)-1)/2
	if h := level - m.Bore/2; h > 0 {
		closed = 1
		if bubble > 0 {
			closed = math.Min(1, h/bubble)
		}
	}
	return (1-closed)*open/(jet*jet) + closed*spectrum.Power(-closedLoss), closed
}

// Loss is what the water at the mouth takes, dB in every octave, and its standard deviation: the energy mean over a
// normal level. It falls without a step from nothing well above the water to 20 dB below it; a mouth awash takes
// about 1 dB. Closed is the mean share of bubbles that close.
func (m Mouth) Loss() (db, sd, closed float64) {
	held, bubble := m.held(), m.Bubble()
	tau, total := 0.0, 0.0
	for i := range levelPoints {
		z := levelReaches * (2*float64(i)/(levelPoints-1) - 1)
		w := math.Exp(-z * z / 2)
		t, c := m.through(m.Depth+z*m.Waves, held, bubble)
		total += w
		tau, closed = tau+w*t, closed+w*c
	}
	closed /= total
	db = -10 * math.Log10(tau/total)
	return db, awashDoubt*math.Min(1, db)*(1-closed) + closedDoubt*closed, closed
}
