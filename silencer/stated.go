package silencer

import "hushwake/source/spectrum"

// statedLoss is a loss in dB by octave that comes without a phase: energy is taken out beside the chain.
type statedLoss struct{ bands spectrum.Bands }

// at is the loss at a frequency: that of its octave, so that the octave keeps the stated value; beyond the
// nine octaves that of the nearest.
func (s statedLoss) at(hz float64) float64 {
	if b := spectrum.BandOf(hz); b >= 0 {
		return s.bands[b]
	}
	if hz < spectrum.Exact[0] {
		return s.bands[0]
	}
	return s.bands[spectrum.N-1]
}
