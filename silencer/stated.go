package silencer

import (
	"math"

	"hushwake/source/spectrum"
)

// statedLoss is a loss in dB by octave that comes without a phase: energy is taken out beside the chain.
type statedLoss struct{ bands spectrum.Bands }

// at is the loss at a frequency: straight between band centres over the logarithm of frequency, flat outside.
func (s statedLoss) at(hz float64) float64 {
	x := math.Log2(hz / spectrum.Exact[0])
	if !(x > 0) {
		return s.bands[0]
	}
	i := int(x)
	if i >= spectrum.N-1 {
		return s.bands[spectrum.N-1]
	}
	return s.bands[i] + (x-float64(i))*(s.bands[i+1]-s.bands[i])
}
