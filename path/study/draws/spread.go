package draws

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"hushwake/source/cores"
)

// collect turns the draws into bands and probabilities; one goroutine, fixed order.
func (m *Model) collect(e *Ensemble, levels, factors [][][]float64) Spread {
	s := Spread{Draws: e.Draws, Layouts: make([]LayoutSpread, len(m.Layouts))}
	cores.Each(len(m.Layouts), func(i int) {
		l := m.Layouts[i]
		out := LayoutSpread{Name: l.Name}
		for j, h := range l.Listeners {
			out.Listeners = append(out.Listeners, levelSpread(h, levels[i][j]))
		}
		for j, p := range l.Exhausts {
			out.Exhausts = append(out.Exhausts, pressureSpread(p, e.Moved, factors[i][j]))
		}
		out.OverBackPressure = anyOver(l.Exhausts, factors[i])
		s.Layouts[i] = out
	})
	for name := range m.listenerNames() {
		m.quietest(name, levels, &s)
	}
	return s
}

func levelSpread(h *Listener, v []float64) LevelSpread {
	q := quantiles(v, 0.5, 0.1, 0.9)
	out := LevelSpread{Listener: h.Name, Level: q[0], Low: q[1], High: q[2], SD: stat.StdDev(v, nil)}
	if h.limit != nil {
		p := shareOver(v, *h.limit)
		out.OverLimit = &p
	}
	return out
}

// pressureSpread: without readings the median is the prediction itself.
func pressureSpread(p *Exhaust, moved bool, f []float64) PressureSpread {
	q := quantiles(f, 0.5, 0.1, 0.9)
	out := PressureSpread{Engine: p.Engine, Rated: p.rated, Low: p.rated * q[1], High: p.rated * q[2]}
	if moved {
		out.Rated = p.rated * q[0]
	}
	if p.limit != nil && p.rated > 0 {
		q := shareOver(f, *p.limit/p.rated)
		out.OverLimit = &q
	}
	return out
}

func shareOver(v []float64, limit float64) float64 {
	n := 0
	for _, x := range v {
		if x > limit {
			n++
		}
	}
	return float64(n) / float64(len(v))
}

// anyOver is the share of draws in which at least one exhaust is over its limit.
func anyOver(ps []*Exhaust, f [][]float64) *float64 {
	stated, n, draws := false, 0, 0
	for j := range ps {
		stated = stated || ps[j].limit != nil
		draws = len(f[j])
	}
	if !stated {
		return nil
	}
	for d := range draws {
		for j, p := range ps {
			if p.limit != nil && p.rated*f[j][d] > *p.limit {
				n++
				break
			}
		}
	}
	share := float64(n) / float64(draws)
	return &share
}

// listenerNames is the set of listener names.
func (m *Model) listenerNames() map[string]bool {
	all := map[string]bool{}
	for _, l := range m.Layouts {
		for _, h := range l.Listeners {
			all[h.Name] = true
		}
	}
	return all
}

// quietest counts in how many draws each layout that is not refused is the quietest at a listener;
// layouts that are level share the draw.
func (m *Model) quietest(listener string, levels [][][]float64, s *Spread) {
	type place struct{ l, h int }
	var at []place
	var v [][]float64
	for i, l := range m.Layouts {
		for j, h := range l.Listeners {
			if h.Name == listener && !l.Refused {
				at, v = append(at, place{i, j}), append(v, levels[i][j])
			}
		}
	}
	for i, share := range lowest(v) {
		s.Layouts[at[i].l].Listeners[at[i].h].Quietest = share
	}
}

// lowest gives the share of draws in which each row holds the lowest value.
func lowest(rows [][]float64) []float64 {
	won := make([]float64, len(rows))
	if len(rows) == 0 {
		return won
	}
	draws := len(rows[0])
	for d := range draws {
		best, ties := math.Inf(1), 0.0
		for _, r := range rows {
			switch {
			case r[d] < best:
				best, ties = r[d], 1
			case r[d] == best:
				ties++
			}
		}
		for i, r := range rows {
			if r[d] == best {
				won[i] += 1 / ties
			}
		}
	}
	for i := range won {
		won[i] /= float64(draws)
	}
	return won
}
