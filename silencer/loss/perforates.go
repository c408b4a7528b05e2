package loss

import (
	"fmt"
	"math"

	"hushwake/source/published"
)

// PerforateFactor multiplies the smooth-pipe friction along a perforated tube that the gas passes straight
// through (1.1 to 1.5, from memory).
const PerforateFactor = 1.3

// BellowsFactor multiplies the friction of a flexible bellows (2 to 3, common practice).
const BellowsFactor = 2.5

// Crossflow is a plugged perforated tube: all gas passes out through holes and back through holes.
// x is the hole area of one half over the bore's area; K on the bore:
//
//	K = 4.2 e^(-0.06 x) + 16.7 e^(-2.03 x),   0.6 <= x <= 2
//
// (Munjal, Krishnan and Reddy 1993, coefficients from memory and unverified, hence the wide spread.) Two orifices in a
// row with a jet coefficient of 0.8 lose 3.1/x^2; the larger of both is used below 0.6, the formula above 2.
func Crossflow(x float64) Coefficient {
	c := Coefficient{Cited: published.By("K = 4.2 exp(-0.06 x) + 16.7 exp(-2.03 x), x = hole area/bore area", "Munjal, Krishnan and Reddy 1993, coefficients unverified", FromMemory), SD: 0.4}
	if !(x > 0) {
		c.K, c.Warning = 0, "a plugged tube without holes lets no gas through"
		return c
	}
	c.K = 4.2*math.Exp(-0.06*x) + 16.7*math.Exp(-2.03*x)
	if x < 0.6 || x > 2 {
		c.Warning = fmt.Sprintf("hole area %.2g times the bore's lies outside the cross-flow formula (0.6 to 2)", x)
		c.SD = 0.6
	}
	if two := 2 / (0.64 * x * x); x < 0.6 && two > c.K {
		c.K, c.Cited = two, published.By("K = 2/(0.8 x)^2, two orifices in a row", "orifice with jet coefficient 0.8", FromMemory)
	}
	return c
}
