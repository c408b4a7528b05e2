package fourpole

import (
	"fmt"
	"math"
)

// Mode names a cross mode of a round duct by its nodal diameters and nodal circles.
type Mode struct{ Diameters, Circles int }

// Modes of a round duct in the order in which they cut on.
var (
	FirstDiameter = Mode{1, 0} // matters as soon as any part is off the axis
	FirstRadial   = Mode{0, 1} // the first one that a centred line excites
	SecondRadial  = Mode{0, 2}
)

// modeRoots are zeros of the derivatives of Bessel functions (Abramowitz & Stegun table 9.5).
var modeRoots = map[Mode]float64{
	{1, 0}: 1.841183781340659, {2, 0}: 3.054236928227140, {0, 1}: 3.831705970207512,
	{3, 0}: 4.201188941210528, {4, 0}: 5.317553126083994, {1, 1}: 5.331442773525033,
	{5, 0}: 6.415616375700240, {2, 1}: 6.706133194158457, {0, 2}: 7.015586669815619,
}

// CutOn is the frequency (Hz) from which a cross mode of a round duct propagates,
//
//	f = x c sqrt(1-M^2)/(pi D)
//
// with x the zero of the derivative of its Bessel function (Norton & Karczub, Fundamentals of Noise and Vibration
// Analysis for Engineers, 2003, ch. 7). The bore is in m, the speed of sound in m/s, mach the flow's Mach number.
func CutOn(mode Mode, bore, soundSpeed, mach float64) (float64, error) {
	if _, ok := modeRoots[mode]; !ok {
		return 0, fmt.Errorf("cut-on: no zero kept for mode (%d,%d)", mode.Diameters, mode.Circles)
	}
	if !(bore > 0) || !(soundSpeed > 0) {
		return 0, fmt.Errorf("cut-on: bore %g m and speed of sound %g m/s must be positive", bore, soundSpeed)
	}
	if err := checkMach(mach); err != nil {
		return 0, fmt.Errorf("cut-on: %w", err)
	}
	return mode.CutOn(bore, soundSpeed, mach), nil
}

// CutOn is that of a mode that is kept, for sizes and a flow that are checked: m, m/s and the
// flow's Mach number.
func (m Mode) CutOn(bore, soundSpeed, mach float64) float64 {
	return modeRoots[m] * soundSpeed * math.Sqrt(1-mach*mach) / (math.Pi * bore)
}
