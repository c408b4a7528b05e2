package weigh

import (
	"math"

	"hushwake/source"
	"hushwake/source/spectrum"
)

// LineLosses is the loss of each line at its own frequency, dB: the energy average over the
// 3 % each side that the weighing of the bands uses too, across octave edges. v holds
// the losses at the Octaves. A line outside the octaves has none and gets 0.
func LineLosses(lines []source.PipeOrder, v []float64) []float64 {
	out := make([]float64, len(lines))
	for i, l := range lines {
		low, high := gridAt(l.Frequency*(1-lineSpread)), gridAt(l.Frequency*(1+lineSpread))
		through, total := 0.0, 0.0
		for k := int(math.Max(low, 0)); k < len(v) && float64(k) < high; k++ {
			if part := math.Min(high, float64(k+1)) - math.Max(low, float64(k)); part > 0 && !math.IsNaN(v[k]) {
				through += part * spectrum.Power(-v[k])
				total += part
			}
		}
		if through > 0 {
			out[i] = 10 * math.Log10(total/through)
		}
	}
	return out
}

// gridAt is the place of a frequency on the samples of all octaves, in samples from the lowest edge.
func gridAt(hz float64) float64 {
	return (math.Log10(hz/spectrum.Exact[0])/0.3 + 0.5) * pointsPerBand
}

// Even are the same frequencies, each standing for an equal share of its octave: the
// broadband part.
func Even(s []Sample) []Sample {
	out := append([]Sample(nil), s...)
	for i := range out {
		out[i].weight = 1
	}
	return out
}
