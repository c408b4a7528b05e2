package draws

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"hushwake/source/cores"
	"hushwake/source/spectrum"
)

// Moved is one term before and after.
type Moved struct {
	Term
	Unit                                string // dB | relative
	Prior, Posterior, SDBefore, SDAfter float64
}

// Moved lists the terms by what they moved or narrowed in the draws.
func (m *Model) Moved(e *Ensemble) []Moved {
	z, reach := e.Terms(m), m.reach()
	causes := append([]mixture(nil), m.mixed...)
	for k, t := range m.Terms {
		if t.Whole == "" {
			causes = append(causes, mixture{t, []weightedTerm{{k, 1}}})
		}
	}
	all := make([]Moved, len(causes))
	cores.Each(len(all), func(i int) {
		c := &causes[i]
		scale, unit := reach.scale(c.parts)
		t := Moved{Term: c.Term, Unit: unit, SDBefore: scale, SDAfter: scale * math.Sqrt(correlation(c.parts, c.parts))}
		if e.Moved {
			mean, sd := stat.MeanStdDev(mixed(z, c.parts), nil)
			t.Posterior, t.SDAfter = scale*mean, scale*sd
		}
		all[i] = t
	})
	change := func(t Moved) float64 {
		if t.SDBefore == 0 {
			return 0
		}
		return (math.Abs(t.Posterior) + t.SDBefore - t.SDAfter) / t.SDBefore
	}
	sort.SliceStable(all, func(i, j int) bool { return change(all[i]) > change(all[j]) })
	return all
}

// mixed is a cause in every draw, to be read only.
func mixed(z [][]float64, parts []weightedTerm) []float64 {
	if len(parts) == 1 && parts[0].weight == 1 {
		return z[parts[0].term]
	}
	out := make([]float64, len(z[parts[0].term]))
	for _, p := range parts {
		floats.AddScaled(out, p.weight, z[p.term])
	}
	return out
}

// reach is how far each term moves what it moves: routes by their mean over the bands, dB, exhausts and boxes, relative.
type reach struct{ db, relative [][]moves }

// moves is one route, exhaust or box with how far a term moves it.
type moves struct {
	at int
	by float64
}

func (m *Model) reach() reach {
	r, at := reach{make([][]moves, len(m.Terms)), make([][]moves, len(m.Terms))}, 0
	for _, l := range m.Layouts {
		for _, h := range l.Listeners {
			for _, route := range h.Routes {
				at++
				for i, k := range route.Keys {
					r.db[k] = append(r.db[k], moves{at, mean(route.SD[i])})
				}
			}
		}
		relative := func(keys []int, sd []float64) {
			at++
			for i, k := range keys {
				r.relative[k] = append(r.relative[k], moves{at, sd[i]})
			}
		}
		for _, p := range l.Exhausts {
			relative(p.Keys, p.SD)
		}
		for _, b := range l.Boxes {
			for i := range b.Keys {
				relative(b.Keys[i:i+1], b.SD[i:])
			}
		}
	}
	return r
}

// scale is one deviation of a cause: the largest mean over the bands of any route, in dB, or
// relative for a cause of the back pressure alone.
func (r reach) scale(parts []weightedTerm) (float64, string) {
	if db := largest(r.db, parts); db > 0 {
		return db, "dB"
	}
	return largest(r.relative, parts), "relative"
}

func largest(by [][]moves, parts []weightedTerm) (most float64) {
	sum := map[int]float64{}
	for _, p := range parts {
		for _, x := range by[p.term] {
			sum[x.at] += p.weight * x.by
		}
	}
	for _, v := range sum {
		most = math.Max(most, v)
	}
	return most
}

func mean(b spectrum.Bands) float64 {
	s := 0.0
	for _, v := range b {
		s += v
	}
	return s / spectrum.N
}
