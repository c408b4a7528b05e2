package sound

import (
	"math"

	"hushwake/source/spectrum"
)

// hold scales what fills the octaves so that each has its level to the last, and leans it so that its A-weight is the octave's,
// by which the level is predicted. Bins of orders belong to these alone; outside the octaves there is nothing but orders.
func (r *ring) hold(broad spectrum.Bands) {
	var parts [spectrum.N][pieces]float64
	at := make([]place, len(r.rest))
	for k := range r.rest {
		at[k] = placeOf(r.frequency(k))
		if r.lines[k] != 0 || at[k].band < 0 {
			r.rest[k], at[k].band = 0, -1
			continue
		}
		parts[at[k].band][at[k].piece] += 2 * square(r.rest[k])
	}
	var scale [spectrum.N][pieces]float64
	for b := range parts {
		scale[b] = leaning(b, parts[b], spectrum.Power(broad[b]))
	}
	for k, p := range at {
		if p.band >= 0 {
			r.rest[k] *= complex(scale[p.band][p.piece], 0)
		}
	}
}

// pieces is in how many parts of equal ratio an octave is leaned.
const pieces = 32

// place is where a bin lies: the octave, -1 for none, and the piece of it.
type place struct{ band, piece int }

func placeOf(f float64) place {
	b := spectrum.BandOf(f)
	if b < 0 {
		return place{-1, 0}
	}
	low, _ := spectrum.Edges(b)
	return place{b, max(0, min(int(math.Log10(f/low)/0.3*pieces), pieces-1))}
}

// steepest lean of an octave, decades of energy from its lower to its upper edge (judgement).
const steepest = 2.0

// leaning is by what each piece of an octave is scaled, as amplitude, so that all have the energy and the octave's A-weight.
// Where no lean does, as where the weighting turns, the energy alone is held.
func leaning(band int, parts [pieces]float64, energy float64) (scale [pieces]float64) {
	weigh := func(lean float64) (sum, excess float64) {
		for i, e := range parts {
			x := (float64(i)+0.5)/pieces - 0.5
			e *= math.Pow(10, lean*x)
			sum += e
			excess += e * (spectrum.Power(spectrum.AAt(spectrum.Exact[band]*math.Pow(10, 0.3*x))) - spectrum.Power(spectrum.A[band]))
		}
		return sum, excess
	}
	low, high, lean := -steepest, steepest, 0.0
	_, first := weigh(low)
	if _, last := weigh(high); first*last < 0 {
		for range 40 {
			lean = (low + high) / 2
			if _, mid := weigh(lean); mid*first > 0 {
				low = lean
			} else {
				high = lean
			}
		}
	}
	sum, _ := weigh(lean)
	for i := range scale {
		if sum > 0 {
			scale[i] = math.Sqrt(energy / sum * math.Pow(10, lean*((float64(i)+0.5)/pieces-0.5)))
		}
	}
	return scale
}
