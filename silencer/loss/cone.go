package loss

import (
	"math"

	"hushwake/source/published"
)

// Cone is what a gradual change of bore loses on the head of the smaller bore, s = small area over large area, a the
// angle between opposite walls:
//
//	widening:   K = 2.6 sin(a/2) (1-s)^2 to 45 degrees, (1-s)^2 beyond
//	narrowing:  K = 0.8 sin(a/2) (1-s) to 45 degrees, 0.5 sqrt(sin(a/2)) (1-s) beyond
//
// (Crane TP-410, from memory; widening after Gibson). Friction comes on top: below some 10 degrees the measured losses
// hold part of it, so the sum is on the high side. s is a ratio, m2 over m2, a is in rad.
func Cone(s, angle float64, widens bool) Coefficient {
	sine := math.Sin(angle / 2)
	c := Coefficient{Cited: published.By("", "Crane TP-410", FromMemory), SD: 0.3}
	switch steep := angle > math.Pi/4; {
	case widens && steep:
		return Expansion(s)
	case widens:
		c.K, c.Formula = 2.6*sine*(1-s)*(1-s), "K = 2.6 sin(a/2) (1 - s)^2"
	case steep:
		c.K, c.Formula = 0.5*math.Sqrt(sine)*(1-s), "K = 0.5 sqrt(sin(a/2)) (1 - s)"
	default:
		c.K, c.Formula = 0.8*sine*(1-s), "K = 0.8 sin(a/2) (1 - s)"
	}
	return c
}
