package fourpole

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// Sound through the walls of a line. Surface masses in kg/m2, sizes in m, frequencies in Hz, losses in dB.

// Caps of what a wall is credited with.
const (
	roundBreakoutCap = 50.0 // ASHRAE handbook, HVAC Applications (read)
	shellBreakoutCap = 30.0 // common practice, no source
)

// Seam says how a round duct is made.
type Seam int

// Seams.
const (
	LongSeam Seam = iota
	SpiralSeam
)

// RoundBreakout is the loss through the wall of a round duct by the regression of Reynolds & Bledsoe as in ASHRAE
// (constants from memory): the greater of
//
//	17.6 lg q - 49.8 lg f - 55.3 lg d + C0,  17.6 lg q - 6.6 lg f - 36.9 lg d + 97.4
//
// q in lb/ft2, d in inches, C0 230.4 (long seam) or 232.9 (spiral), not above roundBreakoutCap. A rigid pipe wall
// reaches the cap everywhere. Arguments are in kg/m2, m and Hz.
func RoundBreakout(mass, bore, f float64, seam Seam) (float64, error) {
	if err := checkWall(mass, bore, f); err != nil {
		return 0, err
	}
	c0 := 230.4
	if seam == SpiralSeam {
		c0 = 232.9
	}
	q, d := math.Log10(mass*0.2048161), math.Log10(bore/0.0254)
	low := 17.6*q - 49.8*math.Log10(f) - 55.3*d + c0
	high := 17.6*q - 6.6*math.Log10(f) - 36.9*d + 97.4
	return math.Min(roundBreakoutCap, math.Max(0, math.Max(low, high))), nil
}

// shellBreakout is the loss through a silencer's shell, taken as a limp flat panel of its mass, 20 lg(m f) - 47, not
// above shellBreakoutCap (common practice, no source): its flat ends and seams, not its barrel, decide. The mass is in
// kg/m2, f in Hz.
func shellBreakout(mass, f float64) (float64, error) {
	if err := checkWall(mass, f); err != nil {
		return 0, err
	}
	return math.Min(shellBreakoutCap, math.Max(0, 20*math.Log10(mass*f)-47)), nil
}

// radiatedThroughWall is the sound power that leaves through a wall of outer area over a duct of cross-section inner,
// Lw - TL + 10 lg(outer/inner), not above Lw - 3 (ASHRAE; outline read). Levels are in dB, areas in m2.
func radiatedThroughWall(lw, tl, outer, inner float64) (float64, error) {
	if err := checkWall(outer, inner); err != nil {
		return 0, err
	}
	return math.Max(spectrum.Silent, math.Min(lw-tl+10*math.Log10(outer/inner), lw-3)), nil
}

// wallBands gives a wall's loss in the nine octaves.
func wallBands(loss func(f float64) (float64, error)) (b spectrum.Bands, err error) {
	for i, f := range spectrum.Nominal {
		if b[i], err = loss(f); err != nil {
			return b, err
		}
	}
	return b, nil
}

func checkWall(numbers ...float64) error {
	for _, x := range numbers {
		if !(x > 0) || math.IsInf(x, 0) {
			return fmt.Errorf("breakout: mass, sizes and frequency must be positive, not %g", x)
		}
	}
	return nil
}
