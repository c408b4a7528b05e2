package panel

import "math"

// MassLaw is the loss of a limp leaf of m kg/m2 at f Hz, dB, not below zero:
//
//	R = 20 lg m + 20 lg(f/250)
//
// Source: singleCited, eq. 3.33; the constant by its worked example (35.3 dB at 63 Hz for 230 kg/m2).
func MassLaw(m, f float64) float64 {
	if m <= 0 || f <= 0 {
		return 0
	}
	return math.Max(0, massLaw(m, f))
}
