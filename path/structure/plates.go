package structure

import (
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// PlatesCited cites how the plates of a space give off sound.
var PlatesCited = published.By("Lw = Lv + 10 lg S + 10 lg sigma + 10 lg(rho c v0^2/W0) - lining", radiationSource, "read")

// Floating is what stands loose on the hull inside a space.
type Floating string

// Kinds of floating linings.
const (
	NotFloating Floating = "no"
	FloatFloor  Floating = "floor"
	FloatAll    Floating = "yes"
)

// Cover is what lies between the plates of a space and its air.
type Cover struct {
	Lined    bool // dry lining on battens
	Floating Floating
}

// What covers take off by band, dB. Lining and floor alone are judgement; a floating floor with walls
// brings 10 dB(A) as usually built (ship research, abstract), about 15 when well built.
var (
	liningLoss   = spectrum.Bands{0, 0, 3, 6, 8, 8, 8, 8, 8}
	floatingLoss = spectrum.Bands{0, 0, 3, 8, 12, 12, 12, 12, 12}
	floorLoss    = spectrum.Bands{0, 0, 1, 2, 3, 3, 3, 3, 3}
)

// Loss is what the cover takes off, dB; floating floor and walls stand in place of a lining.
func (c Cover) Loss() (loss spectrum.Bands) {
	switch {
	case c.Floating == FloatAll:
		return floatingLoss
	case c.Lined:
		loss = liningLoss
	}
	if c.Floating == FloatFloor {
		loss = loss.Plus(floorLoss)
	}
	return loss
}

// radiated is 10 lg(rho c v0^2/W0): the power of 1 m2 with efficiency 1 at 0 dB, 0.1 dB.
var radiated = 10 * math.Log10(airDensity*soundSpeed*ReferenceVelocity*ReferenceVelocity/referencePower)

// Radiation is from the velocity level of a space's plates to their sound power level, dB.
func (s Space) Radiation(m Material, c Cover) spectrum.Bands {
	return octaveRadiation(m, s.Plate).Shift(10*math.Log10(s.Area) + radiated).Minus(c.Loss())
}
