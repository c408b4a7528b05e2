package path

import (
	"slices"
	"sort"

	"hushwake/path/tones"
	"hushwake/source/published"
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
	if len(h.Routes) == 0 {
		return nil, h.Bands
	}
	type of struct {
		engine    string
		frequency float64
	}
	at, rest := map[of]int{}, make([]spectrum.Bands, len(h.Routes))
	var energy []float64
	for _, s := range h.sets(rest) {
		for i := range s.Lines {
			l := &s.Lines[i]
			key := of{s.engine, l.Frequency}
			k, ok := at[key]
			if !ok {
				at[key], k = len(lines), len(lines)
				lines, energy = append(lines, Line{spectrum.Line{Frequency: l.Frequency}, s.engine, l.Order}), append(energy, 0)
			}
			energy[k] += s.energy[i]
		}
	}
	for k, e := range energy {
		lines[k].Level = spectrum.Level(e)
	}
	sort.SliceStable(lines, func(i, k int) bool { return lines[i].Frequency < lines[k].Frequency })
	return lines, spectrum.SumBands(rest...)
}

// set is the orders of one emitter with the energy that all routes from it bring.
type set struct {
	*tones.Set
	engine string
	energy []float64
}

// sets gathers what routes bring by their emitters, and what is left of each route, dB. Both are moved as its bands have been
// since it was worked out.
func (h Heard) sets(rest []spectrum.Bands) (all []set) {
	for i := range h.Routes {
		r := &h.Routes[i]
		if rest[i] = r.Bands; r.tones == nil {
			continue
		}
		k := slices.IndexFunc(all, func(s set) bool { return s.Set == r.tones && s.engine == r.Engine })
		if k < 0 {
			k, all = len(all), append(all, set{r.tones, r.Engine, make([]float64, len(r.tones.Lines))})
		}
		bands, _ := r.tones.Heard(r.behind)
		moved := r.Bands.Minus(bands)
		rest[i] = r.tones.Broad.Plus(r.behind).Plus(moved)
		by := spectrum.Powers(moved)
		for n := range r.tones.Lines {
			l := &r.tones.Lines[n]
			all[k].energy[n] += l.Through(&r.behind) * by[l.Band]
		}
	}
	return all
}

// soundsOf are the lines without whose they are.
func soundsOf(lines []Line) []spectrum.Line {
	out := make([]spectrum.Line, len(lines))
	for i, l := range lines {
		out[i] = l.Line
	}
	return out
}

// Bring gives a route its orders at the level it has come to by octaves; the step takes that to what the orders give.
func (r *Route) Bring(t *tones.Set) Step {
	r.tones, r.behind = t, r.Bands.Minus(t.UpTo)
	bands, weight := t.Heard(r.behind)
	r.AWeight = weight
	return ordersStep(r.Bands, bands)
}

const ordersName = "orders at their own frequency"

// ordersStep takes the sum of a chain's steps from what octaves give to what the orders give.
func ordersStep(octaves, orders spectrum.Bands) Step {
	return Step{Name: ordersName,
		Cited: published.By("each order with the line's loss and the way's gain at its own frequency, linear in dB over lg f between octave centres, against the octave's", "definition of the level; the A row weighs each order by IEC 61672-1:2013 annex E", "derived"),
		Bands: orders.Minus(octaves)}
}
