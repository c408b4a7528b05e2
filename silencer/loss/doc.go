// Package loss gives pressure losses of pipes and fittings with the source of each figure, the scaling of
// quoted silencer losses to the gas of the duty, and the heat a bare or lagged wall gives off.
// SI units throughout; K counts velocity heads rho V^2/2 of the bore named.
package loss

import "hushwake/source/published"

// Marks say how far a figure may be believed.
const (
	asRead         = "read"
	FromMemory     = "from memory"
	Derived        = "derived"
	CommonPractice = "common practice, no source"
)

// Coefficient is a loss in velocity heads with its origin.
type Coefficient struct {
	K float64 // velocity heads
	published.Cited
	SD      float64 // relative standard deviation of K
	Warning string  // "" where the figure lies inside its range
}

// Drop is the pressure lost, Pa, at a density (kg/m3) and velocity (m/s).
func (c Coefficient) Drop(density, velocity float64) float64 {
	return c.K * density * velocity * velocity / 2
}
