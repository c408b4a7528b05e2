package path

import (
	"math"

	"hushwake/source"
	"hushwake/source/spectrum"
)

// tones is what sits in each octave at one link of a chain: orders, each at its own frequency, and a
// broadband part.
type tones struct {
	lines []tone
	broad spectrum.Bands // dB
	upTo  spectrum.Bands // sum of the chain's steps up to there, dB
}

// tone is one order.
type tone struct {
	level  float64 // dB
	weight float64 // A-weight at its own frequency, as an energy ratio
	band   int     // octave it lies in
	centre int     // octave centre at or under it
	beyond float64 // 0..1, how far it lies from there to the next centre over the logarithm of frequency

	order, frequency float64 // multiples of crankshaft speed, Hz
}

// newTones places orders that have been through a line with those losses; nil losses are none. Without
// orders there is nothing to place and it is nil.
func newTones(orders []source.Order, losses []float64, broad, upTo spectrum.Bands) *tones {
	t := &tones{broad: broad, upTo: upTo}
	for i, o := range orders {
		band := spectrum.BandOf(o.Frequency)
		if band < 0 || o.Level <= spectrum.Silent {
			continue
		}
		x := math.Log10(o.Frequency/spectrum.Exact[0]) / 0.3
		x = math.Max(0, math.Min(x, spectrum.N-1))
		c := min(int(x), spectrum.N-2)
		level := o.Level
		if losses != nil {
			level -= losses[i]
		}
		t.lines = append(t.lines, tone{level, spectrum.Power(spectrum.AAt(o.Frequency)), band, c, x - float64(c), o.Order, o.Frequency})
	}
	if len(t.lines) == 0 {
		return nil
	}
	return t
}

// aPower is the A-weighting as energy ratios.
var aPower = spectrum.Powers(spectrum.A)

// heard gives the energy of each octave behind the gains, dB: unweighted, and the A-weight of what sits there.
// A gain is read at the frequency of each order, linear in dB over the logarithm of frequency between octave
// centres, flat beyond the last.
func (t *tones) heard(gain spectrum.Bands) (bands, weight spectrum.Bands) {
	energy, weighted := t.energies(gain)
	for b := range energy {
		bands[b], weight[b] = t.broad[b]+gain[b], spectrum.A[b]
		if energy[b] > 0 {
			bands[b], weight[b] = 10*math.Log10(energy[b]), 10*math.Log10(weighted[b]/energy[b])
		}
	}
	return bands, weight
}

// energies are those of each octave behind the gains, unweighted and A-weighted.
func (t *tones) energies(gain spectrum.Bands) (energy, weighted spectrum.Bands) {
	for b := range energy {
		energy[b] = spectrum.Power(t.broad[b] + gain[b])
		weighted[b] = energy[b] * aPower[b]
	}
	for i := range t.lines {
		l := &t.lines[i]
		e := l.through(&gain)
		energy[l.band] += e
		weighted[l.band] += e * l.weight
	}
	return energy, weighted
}

// through is the energy of an order behind gains.
func (l *tone) through(gain *spectrum.Bands) float64 {
	return spectrum.Power(l.level + gain[l.centre] + l.beyond*(gain[l.centre+1]-gain[l.centre]))
}

// tonal is the share of each octave's energy that sits on orders.
func (t *tones) tonal() (share spectrum.Bands) {
	for i := range t.lines {
		share[t.lines[i].band] += spectrum.Power(t.lines[i].level)
	}
	for b, e := range share {
		if e > 0 {
			share[b] = e / (e + spectrum.Power(t.broad[b]))
		}
	}
	return share
}
