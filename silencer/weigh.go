package silencer

import (
	"math"

	"hushwake/source/spectrum"
)

// sample is one frequency of a band average and the source energy it stands for.
type sample struct {
	hz, weight float64
	band       int
}

const (
	broadbandPoints = 24   // a band, evenly over the logarithm of frequency
	linePoints      = 7    // a line
	lineSpread      = 0.03 // each side, relative: speed wanders, and tuned peaks are predictable to 2-3 % only
)

// samples spreads the source over frequency: each line over a few points round it, the broadband share
// over its octave. A source of which nothing is known counts as even over each octave.
func (f Feed) samples() []sample {
	var s []sample
	for _, l := range f.Lines {
		b := bandOf(l.Frequency)
		if b < 0 || !(l.Level > spectrum.Silent) {
			continue
		}
		for i := range linePoints {
			x := 2*float64(i)/(linePoints-1) - 1
			s = append(s, sample{l.Frequency * (1 + lineSpread*x), spectrum.Power(l.Level) / linePoints, b})
		}
	}
	known := len(s) > 0
	for b := range spectrum.N {
		e := spectrum.Power(f.Broadband[b])
		if !known && f.Broadband == (spectrum.Bands{}) || f.Broadband[b] <= spectrum.Silent {
			e = 1e-19 // nothing known of this band: an even average
		}
		for i := range broadbandPoints {
			x := (float64(i)+0.5)/broadbandPoints - 0.5
			s = append(s, sample{spectrum.Exact[b] * math.Exp2(x), e / broadbandPoints, b})
		}
	}
	return s
}

// bandOf is the octave that holds a frequency, -1 for none.
func bandOf(hz float64) int { return spectrum.BandOf(hz) }

// level is the unsilenced source in octaves, dB.
func (f Feed) level() spectrum.Bands {
	var e [spectrum.N]float64
	for _, l := range f.Lines {
		if b := bandOf(l.Frequency); b >= 0 {
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

// average is the loss of each band: transmitted over incident energy of the samples, in dB.
func average(s []sample, loss func(i int) float64) (out spectrum.Bands) {
	var through, total [spectrum.N]float64
	for i, p := range s {
		v := loss(i)
		if math.IsNaN(v) {
			continue
		}
		through[p.band] += p.weight * math.Pow(10, -v/10)
		total[p.band] += p.weight
	}
	for b := range out {
		if through[b] > 0 && total[b] > 0 {
			out[b] = 10 * math.Log10(total[b]/through[b])
		}
	}
	return out
}
