// Package tones holds what sits in each octave on its way to an ear: orders, each at its own frequency, and a broadband part.
// Levels in dB; a gain between octave centres is linear in dB over the logarithm of frequency, flat beyond the last.
package tones

import (
	"math"
	"slices"

	"hushwake/source"
	"hushwake/source/spectrum"
	"hushwake/source/vector"
)

// Set is what sits in each octave at one link of a chain: orders, each at its own frequency, and a
// broadband part.
type Set struct {
	Lines []Tone
	Broad spectrum.Bands // dB
	UpTo  spectrum.Bands // sum of the chain's steps up to there, dB
}

// Tone is one order.
type Tone struct {
	level  float64 // dB
	weight float64 // A-weight at its own frequency, as an energy ratio
	Band   int     // octave it lies in
	centre int     // octave centre at or under it
	beyond float64 // 0..1, how far it lies from there to the next centre over the logarithm of frequency

	Order, Frequency float64 // multiples of crankshaft speed, Hz
}

// New places orders that have been through a line with those losses; nil losses are none. Without
// orders there is nothing to place and it is nil.
func New(orders []source.PipeOrder, losses []float64, broad, upTo spectrum.Bands) *Set {
	t := &Set{Broad: broad, UpTo: upTo}
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
		t.Lines = append(t.Lines, Tone{level, spectrum.Power(spectrum.AAt(o.Frequency)), band, c, x - float64(c), o.Order, o.Frequency})
	}
	if len(t.Lines) == 0 {
		return nil
	}
	return t
}

// APower is the A-weighting as energy ratios.
var APower = spectrum.Powers(spectrum.A)

// Equal tells whether two sets are alike, nil = no orders.
func (t *Set) Equal(o *Set) bool {
	if t == nil || o == nil {
		return t == o
	}
	return t.Broad == o.Broad && t.UpTo == o.UpTo && slices.Equal(t.Lines, o.Lines)
}

// Heard gives the energy of each octave behind the gains, dB: unweighted, and the A-weight of what sits there.
// A gain is read at the frequency of each order, linear in dB over the logarithm of frequency between octave
// centres, flat beyond the last.
func (t *Set) Heard(gain spectrum.Bands) (bands, weight spectrum.Bands) {
	energy, weighted := t.Energies(gain)
	for b := range energy {
		bands[b], weight[b] = t.Broad[b]+gain[b], spectrum.A[b]
		if energy[b] > 0 {
			bands[b], weight[b] = 10*math.Log10(energy[b]), 10*math.Log10(weighted[b]/energy[b])
		}
	}
	return bands, weight
}

// some are the orders whose energies are worked out together; an octave's broadband part is one more.
const some = 128

// Energies are those of each octave behind the gains, unweighted and A-weighted, within 1e-13.
func (t *Set) Energies(gain spectrum.Bands) (energy, weighted spectrum.Bands) {
	var room [some + spectrum.N]float64
	for from := 0; from == 0 || from < len(t.Lines); from += some {
		lines := t.Lines[from:min(from+some, len(t.Lines))]
		for i := range lines {
			room[i] = lines[i].behind(&gain) * neper
		}
		e := room[:len(lines)]
		if from == 0 {
			e = room[:len(lines)+spectrum.N]
			for b, v := range gain {
				e[len(lines)+b] = (t.Broad[b] + v) * neper
			}
		}
		vector.ExpFine(e)
		for b, v := range e[len(lines):] {
			energy[b], weighted[b] = v, v*APower[b]
		}
		for i, v := range e[:len(lines)] {
			l := &lines[i]
			energy[l.Band] += v
			weighted[l.Band] += v * l.weight
		}
	}
	return energy, weighted
}

const neper = math.Ln10 / 10 // of energy, in a dB

// Through is the energy of an order behind gains.
func (l *Tone) Through(gain *spectrum.Bands) float64 { return spectrum.Power(l.behind(gain)) }

// behind is the level of an order behind gains, dB.
func (l *Tone) behind(gain *spectrum.Bands) float64 {
	return l.level + gain[l.centre] + l.beyond*(gain[l.centre+1]-gain[l.centre])
}

// Tonal is the share of each octave's energy that sits on orders.
func (t *Set) Tonal() (share spectrum.Bands) {
	for i := range t.Lines {
		share[t.Lines[i].Band] += spectrum.Power(t.Lines[i].level)
	}
	for b, e := range share {
		if e > 0 {
			share[b] = e / (e + spectrum.Power(t.Broad[b]))
		}
	}
	return share
}
