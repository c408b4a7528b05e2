// Package structure predicts the sound that an engine sends through its feet, mounts and bed into the
// hull, and that the plates of a space then give off: free velocity at the feet, mobilities and power
// into the bed, insertion loss of the mounts, what bridges them, a power balance of the hull's plates,
// and their radiation. It knows nothing of boats, scenes or files.
//
// Velocity levels are in dB re 5e-8 m/s (ISO 9611), power levels in dB re 1 pW. Below about 250 Hz the
// plates of small craft have few modes: the levels there are a ceiling rather than an estimate.
package structure

import "math"

// Constants of the package.
const (
	ReferenceVelocity = 5e-8 // m/s, ISO 9611
	soundSpeed        = 343.0
	airDensity        = 1.2
	waterDensity      = 1000.0
	referencePower    = 1e-12 // W
)

// bendingFactor is that of cB = sqrt(1.81 cL h f), pi/sqrt(3).
var bendingFactor = math.Pi / math.Sqrt(3)

// bendingSpeed is the speed of free bending waves in a plate or beam of thickness h, m/s.
func bendingSpeed(cL, h, f float64) float64 { return math.Sqrt(bendingFactor * cL * h * f) }
