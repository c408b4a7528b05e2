package draws

import (
	"math"
	"sort"

	"hushwake/source/spectrum"
)

// Moved is one term before and after.
type Moved struct {
	Term
	Unit                                string // dB | relative
	Prior, Posterior, SDBefore, SDAfter float64
}

// Moved lists the terms by what they moved or narrowed.
func (m *Model) Moved(b Belief) []Moved {
	causes := append([]mixture(nil), m.mixed...)
	for k, t := range m.Terms {
		if t.Whole == "" {
			causes = append(causes, mixture{t, []weightedTerm{{k, 1}}})
		}
	}
	all := make([]Moved, 0, len(causes))
	for _, c := range causes {
		scale, unit := m.scale(c.parts)
		t, g := Moved{Term: c.Term, Unit: unit, SDBefore: scale}, make([]float64, len(m.Terms))
		for _, p := range c.parts {
			g[p.term] = p.weight
			t.Posterior += scale * p.weight * b.Mean[p.term]
		}
		t.SDAfter = scale * math.Sqrt(b.Variance(g))
		all = append(all, t)
	}
	change := func(t Moved) float64 {
		if t.SDBefore == 0 {
			return 0
		}
		return (math.Abs(t.Posterior) + t.SDBefore - t.SDAfter) / t.SDBefore
	}
	sort.SliceStable(all, func(i, j int) bool { return change(all[i]) > change(all[j]) })
	return all
}

// scale is one deviation of a cause: the largest mean over the bands of any route, in dB, or
// relative for a cause of the back pressure alone.
func (m *Model) scale(parts []weightedTerm) (float64, string) {
	weight := map[int]float64{}
	for _, p := range parts {
		weight[p.term] = p.weight
	}
	db, rel := 0.0, 0.0
	for _, l := range m.Layouts {
		for _, h := range l.Listeners {
			for _, r := range h.Routes {
				moved := 0.0
				for i, key := range r.Keys {
					moved += weight[key] * mean(r.SD[i])
				}
				db = math.Max(db, moved)
			}
		}
		for _, p := range l.Exhausts {
			moved := 0.0
			for i, key := range p.Keys {
				moved += weight[key] * p.SD[i]
			}
			rel = math.Max(rel, moved)
		}
		for _, b := range l.Boxes {
			for i, key := range b.Keys {
				rel = math.Max(rel, weight[key]*b.SD[i])
			}
		}
	}
	if db > 0 {
		return db, "dB"
	}
	return rel, "relative"
}

func mean(b spectrum.Bands) float64 {
	s := 0.0
	for _, v := range b {
		s += v
	}
	return s / spectrum.N
}
