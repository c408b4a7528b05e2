package path

import (
	"fmt"
	"math"

	"hushwake/source"
	"hushwake/source/spectrum"
)

// toneNote says by how much a meter's A-weighting of the tone that rules at a listener differs from
// that of its octave band; "" where it is less than 1 dB or no tone rules.
func toneNote(h *Heard, results []ExhaustResult) string {
	if len(h.Routes) == 0 {
		return ""
	}
	loudest := h.Routes[0]
	for i := range results {
		if loudest.Engine != results[i].Engine || loudest.Way != ByOutlet {
			continue
		}
		band := rulingBand(loudest.Bands)
		tone, ok := strongestIn(results[i].Source.Orders, band)
		if !ok {
			return ""
		}
		off := spectrum.AAt(tone.Frequency) - spectrum.A[band]
		if math.Abs(off) < 1 {
			return ""
		}
		way := "more"
		if off < 0 {
			way = "less"
		}
		return fmt.Sprintf("The loudest tone, order %g of %s at %.0f Hz, lies off the middle of its octave (%g Hz): a meter may show up to %.0f dB(A) %s than octave bands add up to.",
			tone.Order, results[i].Engine, tone.Frequency, spectrum.Nominal[band], math.Abs(off), way)
	}
	return ""
}

// rulingBand is the octave with the highest A-weighted level.
func rulingBand(b spectrum.Bands) int {
	best := 0
	for i := range b {
		if b[i]+spectrum.A[i] > b[best]+spectrum.A[best] {
			best = i
		}
	}
	return best
}

// strongestIn is the strongest order in an octave.
func strongestIn(orders []source.Order, band int) (best source.Order, ok bool) {
	for _, o := range orders {
		if spectrum.BandOf(o.Frequency) == band && (!ok || o.Level > best.Level) {
			best, ok = o, true
		}
	}
	return best, ok
}
