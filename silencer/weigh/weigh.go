// Package weigh averages losses over octaves as the lines and the broadband share of a source weigh them.
package weigh

import (
	"math"

	"hushwake/source"
	"hushwake/source/spectrum"
)

// Source is what losses are weighed with.
type Source struct {
	Lines     []source.PipeOrder
	Broadband spectrum.Bands // dB, what does not sit on lines
}

// Sample is one of the Octaves and the source energy it stands for.
type Sample struct {
	weight float64
	Band   int
}

const (
	pointsPerBand = 36   // evenly over the logarithm of frequency
	lineSpread    = 0.03 // each side, relative: speed wanders, and tuned peaks are predictable to 2-3 % only
)

// Octaves are the frequencies of all band averages, Hz.
var Octaves = octavePoints()

func octavePoints() (hz []float64) {
	for b := range spectrum.N {
		for i := range pointsPerBand {
			x := (float64(i)+0.5)/pointsPerBand - 0.5
			hz = append(hz, spectrum.Exact[b]*math.Pow(10, 0.3*x))
		}
	}
	return hz
}

// Samples spreads the source over a fixed grid of frequencies: the broadband share evenly over its
// octave, each line over the points within 3 % of it. A band of which nothing is known counts as even.
func (f Source) Samples() []Sample {
	s := make([]Sample, 0, spectrum.N*pointsPerBand)
	silent := len(f.Lines) == 0 && f.Broadband == (spectrum.Bands{})
	for b := range spectrum.N {
		e := spectrum.Power(f.Broadband[b])
		if silent || f.Broadband[b] <= spectrum.Silent {
			e = 1e-19
		}
		for range pointsPerBand {
			s = append(s, Sample{e / pointsPerBand, b})
		}
	}
	for _, l := range f.Lines {
		if b := spectrum.BandOf(l.Frequency); b >= 0 && l.Level > spectrum.Silent {
			spread(s[b*pointsPerBand:(b+1)*pointsPerBand], l, b)
		}
	}
	return s
}

// spread shares the energy of a line among the points of its octave by how much of each cell lies within
// 3 % of the line.
func spread(s []Sample, l source.PipeOrder, band int) {
	at := func(hz float64) float64 { // place on the grid, 0..pointsPerBand
		return (math.Log10(hz/spectrum.Exact[band])/0.3 + 0.5) * pointsPerBand
	}
	low := math.Max(0, at(l.Frequency*(1-lineSpread)))
	high := math.Min(pointsPerBand, at(l.Frequency*(1+lineSpread)))
	if !(high > low) {
		return
	}
	e := spectrum.Power(l.Level) / (high - low)
	for i := int(low); i < pointsPerBand && float64(i) < high; i++ {
		s[i].weight += e * (math.Min(high, float64(i+1)) - math.Max(low, float64(i)))
	}
}

// Level is the unsilenced source in octaves, dB.
func (f Source) Level() spectrum.Bands {
	var e [spectrum.N]float64
	for _, l := range f.Lines {
		if b := spectrum.BandOf(l.Frequency); b >= 0 {
			e[b] += spectrum.Power(l.Level)
		}
	}
	var r spectrum.Bands
	for b := range r {
		if f.Broadband != (spectrum.Bands{}) {
			e[b] += spectrum.Power(f.Broadband[b])
		}
		r[b] = spectrum.Level(e[b])
	}
	return r
}

// Average is the loss of each band: transmitted over incident energy of the samples, in dB.
func Average(s []Sample, loss func(i int) float64) (out spectrum.Bands) {
	var through, total [spectrum.N]float64
	for i, p := range s {
		v := loss(i)
		if math.IsNaN(v) {
			continue
		}
		through[p.Band] += p.weight * spectrum.Power(-v)
		total[p.Band] += p.weight
	}
	for b := range out {
		if through[b] > 0 && total[b] > 0 {
			out[b] = 10 * math.Log10(total[b]/through[b])
		}
	}
	return out
}
