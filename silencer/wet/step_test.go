package wet

import "math"

// PlaneStep is the loss of a plane wave at the step between media of two impedances, dB: 10 lg((z1 + z2)^2/(4 z1 z2)).
func PlaneStep(one, other float64) float64 {
	return 10 * math.Log10((one+other)*(one+other)/(4*one*other))
}
