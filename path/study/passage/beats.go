package passage

import (
	"math"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/source/spectrum"
)

// Beat is two engines whose lines lie so close together that their level swings.
type Beat struct {
	Engines     [2]string
	Order       float64 // of the first engine
	Other       float64 // of the second
	Frequency   float64 // Hz, of the beat
	Line        float64 // Hz, of the lines
	Place       string  // where it swings most, of all layouts
	Layout      string
	Low, High   float64 // dB(A) at the place, between which it swings
	Together    bool    // so slow a beat that its phase is chance
	Part        float64 // rpm between them from which no beat is heard; 0 = they aren't twins
	First, Next float64 // rpm
}

// swing is between what levels, dB, two lines of levels a and b beat beside other sound of a level, by amplitudes:
//
//	10 lg((p_a -+ p_b)^2 + p_rest^2)
//
// Equal lines alone: 6.02 dB over one of them, 3.01 over their mean, and silence between; the mean is their energy sum.
func swing(a, b, rest float64) (low, high float64) {
	pa, pb, r := math.Pow(10, a/20), math.Pow(10, b/20), spectrum.Power(rest)
	return spectrum.Level((pa-pb)*(pa-pb) + r), spectrum.Level((pa+pb)*(pa+pb) + r)
}

// beatFrequency is that of one order of two engines at speeds in rpm, Hz.
func beatFrequency(order, first, next float64) float64 { return math.Abs(first-next) * order / 60 }

const (
	// fastBeat is the frequency from which lines sound rough and no longer swing, Hz (from memory: the fluctuation of a
	// tone is felt most near 4 Hz and little over 10 to 15)
	fastBeat = 10.0
	// leastSwing is what a beat has to move the level at a seat by to be told of, dB
	leastSwing = 1.0
)

// Beats finds for every two engines that run together the lines that swing most at any place.
func Beats(all []path.Prediction) (out []Beat) {
	at := map[[2]string]int{}
	for i := range all {
		p := &all[i]
		for m := range p.Exhausts {
			for n := m + 1; n < len(p.Exhausts); n++ {
				b, ok := beatOf(p, &p.Exhausts[m], &p.Exhausts[n])
				if !ok {
					continue
				}
				k, known := at[b.Engines]
				if !known {
					at[b.Engines], out = len(out), append(out, b)
				} else if b.High-b.Low > out[k].High-out[k].Low {
					out[k] = b
				}
			}
		}
	}
	return out
}

// beatOf is the beat of two engines that swings most at any place; ok is false where none does.
func beatOf(p *path.Prediction, a, b *path.ExhaustResult) (best Beat, ok bool) {
	for j := range p.Listeners {
		h := &p.Listeners[j]
		total := spectrum.Power(h.DBA())
		first, next := p.LinesAt(h, a.Engine), p.LinesAt(h, b.Engine)
		for _, x := range first {
			for _, y := range next {
				f := math.Abs(x.Frequency - y.Frequency)
				if f > fastBeat {
					continue
				}
				l, m := heard(x), heard(y)
				rest := math.Max(total-spectrum.Power(l)-spectrum.Power(m), 0)
				low, high := swing(l, m, spectrum.Level(rest))
				if high-low < leastSwing || high-low <= best.High-best.Low {
					continue
				}
				ok = true
				best = Beat{Engines: [2]string{a.Engine, b.Engine}, Order: x.Order, Other: y.Order, Frequency: f, Line: x.Frequency, Place: h.Listener.Name,
					Layout: p.Layout.Name, Low: low, High: high, Together: f < scene.TogetherHz, First: a.Source.Duty.Speed, Next: b.Source.Duty.Speed}
				if scene.Twins(a, b) && x.Order == y.Order {
					best.Part, best.Frequency = fastBeat*60/x.Order, beatFrequency(x.Order, best.First, best.Next)
				}
			}
		}
	}
	return best, ok
}

// heard is the A-weighted level of a line, dB.
func heard(o path.Line) float64 { return o.Level + spectrum.AAt(o.Frequency) }
