package panel

import (
	"math"

	"hushwake/source/published"
)

// singleCited cites the single-leaf model; its mark is that of the material.
var singleCited = published.By("f < f1: 20 lg m + 20 lg(f/250); plateau Rp = 20 lg(m fc) + 10 lg eta - 42; f > fc: Rp + 25 lg(f/fc)",
	"university reader on building acoustics (2020), eq. 3.33 to 3.37 with table 3.2 (after Cremer)", "read")

// massLaw is the same below zero, where a light leaf beside a gap is worth less than nothing.
func massLaw(m, f float64) float64 { return 20 * math.Log10(m*f/250) }

// plateau is the height of the coincidence plateau as the reader prints it:
//
//	Rp = 20 lg(m fc) + 10 lg eta - 44
//
// Its own table 3.2 and the mass law at f1 = 2 sqrt(eta) fc both give 2 dB more; predictions use the table's value,
// else -42 (see singleCited), which leaves no step in the curve. The mass m is in kg/m2, the critical frequency fc in
// Hz; eta is the loss factor.
func plateau(m, fc, eta float64) float64 {
	return 20*math.Log10(m*fc) + 10*math.Log10(eta) - 44
}

// loss is the transmission loss of the leaf at f Hz by the three-step model; a light leaf's is below zero.
func (l Leaf) loss(f float64) float64 {
	mass := massLaw(l.Mass, f)
	switch {
	case l.sandwich && f >= 240 && f < 2100:
		return mass - 5
	case l.sandwich || l.Critical <= 0:
		return mass
	case f > l.Critical:
		return math.Min(mass, aboveCritical(l.plateau, f, l.Critical))
	}
	return math.Min(mass, l.plateau)
}

// aboveCritical is the rising branch above the critical frequency, Rp + 25 lg(f/fc). Source: singleCited, eq. 3.37. The
// plateau is in dB, f and fc in Hz.
func aboveCritical(plateau, f, fc float64) float64 { return plateau + 25*math.Log10(f/fc) }
