package outdoor

import "math"

// MeanGain is the mean over the sphere of the gain of Directivity; it must be 1, because the pattern only
// shares out the power.
func MeanGain(ka float64) float64 {
	const n = 360
	sum := 0.0
	for i := range n {
		theta := (float64(i) + 0.5) * math.Pi / n
		sum += math.Pow(10, directivity(ka, theta)/10) * math.Sin(theta) * math.Pi / n / 2
	}
	return sum
}
