package plot

import (
	"math"
)

// Pinboard keeps pins from covering one another: one stands for all that fall together.
type Pinboard struct {
	X, Y   Scale
	placed [][2]float64
}

// Free takes a place for a pin if none covers it. x and y are in the units of the pinboard's scales.
func (p *Pinboard) Free(x, y float64) bool {
	for _, q := range p.placed {
		if math.Abs(q[0]-x) < 0.13*(p.X.High-p.X.Low) && math.Abs(q[1]-y) < 0.13*(p.Y.High-p.Y.Low) {
			return false
		}
	}
	p.placed = append(p.placed, [2]float64{x, y})
	return true
}
