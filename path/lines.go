package path

import (
	"sort"

	"hushwake/source/spectrum"
)

// Line is an order of an engine as it is heard at a place, dB re 20 µPa.
type Line struct {
	spectrum.Line
	Engine string
	Order  float64 // multiples of crankshaft speed
}

// Lines are the orders heard at a place by rising frequency, each the energy sum of the ways it comes by, and what is left in
// each octave, dB: energies of both add up to the bands. Of the routes that are only summed up, and of what comes through
// mounts and hull, no orders are known: all of these is left.
func (h Heard) Lines() (lines []Line, broad spectrum.Bands) {
	type of struct {
		engine    string
		frequency float64
	}
	at, rest := map[of]int{}, make([]spectrum.Bands, len(h.Routes))
	for i := range h.Routes {
		r := &h.Routes[i]
		rest[i] = r.tonesAt(func(l *tone, level float64) {
			key := of{r.Engine, l.frequency}
			k, ok := at[key]
			if !ok {
				at[key], k = len(lines), len(lines)
				lines = append(lines, Line{spectrum.Line{Frequency: l.frequency, Level: spectrum.Silent}, r.Engine, l.order})
			}
			lines[k].Level = spectrum.Sum(lines[k].Level, level)
		})
	}
	if len(rest) == 0 {
		return nil, h.Bands
	}
	sort.SliceStable(lines, func(i, k int) bool { return lines[i].Frequency < lines[k].Frequency })
	return lines, spectrum.SumBands(rest...)
}

// tonesAt shows the orders of a route at its end and gives its broadband part; both moved as its bands have been since.
func (r *Route) tonesAt(see func(l *tone, level float64)) spectrum.Bands {
	if r.tones == nil {
		return r.Bands
	}
	bands, _ := r.tones.heard(r.behind)
	moved := r.Bands.Minus(bands)
	broad := r.tones.at(r.behind, func(l *tone, level float64) { see(l, level+moved[l.band]) })
	return broad.Plus(moved)
}

// Sounds are the lines without whose they are.
func Sounds(lines []Line) []spectrum.Line {
	out := make([]spectrum.Line, len(lines))
	for i, l := range lines {
		out[i] = l.Line
	}
	return out
}
