// Package wet sizes the water side of an exhaust: injection, hose, lift chamber, riser, drain-back,
// heights over the waterline, separator and submerged outlet. SI units throughout. Each check gives
// findings: plain sentences with a code, what to do and where the figure comes from.
package wet

import "math"

// Severities, worst first.
const (
	Danger  = "danger"
	Warning = "warning"
	Caution = "caution"
	Note    = "note"
)

// Finding is something wrong or dangerous.
type Finding struct {
	Code     string // stable, upper-case words with dashes
	Severity string // danger | warning | caution | note
	Text     string
	Action   string
	Source   string
	Refuse   bool // the layout must be refused for it
}

// Constants of sea water in a warm exhaust, from memory.
const (
	WaterDensity   = 1015.0  // kg/m3
	waterViscosity = 0.65e-3 // Pa s at about 45 C
	surfaceTension = 0.066   // N/m
	gravity        = 9.80665 // m/s2
)

// area of a round bore, m2.
func area(bore float64) float64 { return math.Pi / 4 * bore * bore }

// waterHead is the pressure of a column of water, Pa. The density is in kg/m3, the height in m.
func waterHead(density, height float64) float64 { return density * gravity * height }
