package study

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"hushwake/source/spectrum"
)

// DrawsNote says what the draws leave out.
const DrawsNote = "Latin hypercube draws with a fixed seed. A route's bands move linearly with its terms and are summed as energy; the curves of the line " +
	"are not computed anew in a draw: how its dips and peaks shift with gas temperature is held by the terms 'order pattern' and 'element model'. " +
	"With small deviations the draws and linear propagation agree within 0.3 dB."

// collect turns the draws into bands and probabilities; one goroutine, fixed order.
func (m *Model) collect(b Belief, d Draws, levels, factors [][][]float64) Spread {
	s := Spread{Draws: d, Layouts: make([]LayoutSpread, len(m.layouts))}
	parallel(len(m.layouts), func(i int) {
		l := m.layouts[i]
		out := LayoutSpread{Name: l.name}
		for j, h := range l.heard {
			out.Listeners = append(out.Listeners, levelSpread(h, b, levels[i][j]))
		}
		for j, p := range l.pressures {
			out.Exhausts = append(out.Exhausts, pressureSpread(p, b, factors[i][j]))
		}
		out.OverBackPressure = anyOver(l.pressures, factors[i])
		s.Layouts[i] = out
	})
	for name := range m.listeners() {
		m.quietest(name, levels, &s)
	}
	return s
}

func levelSpread(h *heardModel, b Belief, v []float64) LevelSpread {
	o := sorted(v)
	out := LevelSpread{Listener: h.listener, Level: h.level(b.Mean, spectrum.A),
		Low: quantile(o, 0.1), High: quantile(o, 0.9), Median: quantile(o, 0.5), SD: stat.StdDev(v, nil)}
	if h.limit != nil {
		p := shareOver(v, *h.limit)
		out.OverLimit = &p
	}
	return out
}

func pressureSpread(p *pressureModel, b Belief, f []float64) PressureSpread {
	o := sorted(f)
	out := PressureSpread{Engine: p.engine, Rated: p.rated * p.factor(b.Mean),
		Low: p.rated * quantile(o, 0.1), High: p.rated * quantile(o, 0.9)}
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
func anyOver(ps []*pressureModel, f [][]float64) *float64 {
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

// listeners is the set of listener names.
func (m *Model) listeners() map[string]bool {
	all := map[string]bool{}
	for _, l := range m.layouts {
		for _, h := range l.heard {
			all[h.listener] = true
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
	for i, l := range m.layouts {
		for j, h := range l.heard {
			if h.listener == listener && !l.refused {
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

// Quieter is the probability that layout a is quieter than layout b at a listener.
func (m *Model) Quieter(b Belief, d Draws, first, second, listener string) (float64, bool, error) {
	i, j := m.find(first, listener)
	k, l := m.find(second, listener)
	if j < 0 || l < 0 {
		return 0, false, nil
	}
	pair := &Model{Terms: m.Terms, index: m.index, layouts: []*layoutModel{
		{name: first, heard: []*heardModel{m.layouts[i].heard[j]}},
		{name: second, heard: []*heardModel{m.layouts[k].heard[l]}}}}
	s, err := pair.MonteCarlo(b, d)
	if err != nil {
		return 0, false, err
	}
	return s.Layouts[0].Listeners[0].Quietest, true, nil
}

// Convergence is how far the bands still move at a number of draws.
type Convergence struct {
	Draws int
	Moved float64 // dB, largest change of any low or high against the row with most draws
}

// Converge repeats the draws with a sixteenth, a quarter and all of them, each with a seed of its
// own, and shows how far the percentiles lie from those of four times as many draws.
func (m *Model) Converge(b Belief, d Draws) ([]Convergence, error) {
	if d.N == 0 {
		d.N = DefaultDraws
	}
	if d.Seed == 0 {
		d.Seed = DefaultSeed
	}
	most, err := m.MonteCarlo(b, Draws{min(4*d.N, maxDraws), d.Seed + 1})
	if err != nil {
		return nil, err
	}
	var rows []Convergence
	for _, part := range []int{16, 4, 1} {
		n := max(100, d.N/part)
		s, err := m.MonteCarlo(b, Draws{n, d.Seed})
		if err != nil {
			return nil, err
		}
		rows = append(rows, Convergence{n, moved(s, most)})
	}
	return rows, nil
}

func moved(a, b Spread) float64 {
	far := 0.0
	for i, l := range a.Layouts {
		for j, h := range l.Listeners {
			o := b.Layouts[i].Listeners[j]
			far = math.Max(far, math.Max(math.Abs(h.Low-o.Low), math.Abs(h.High-o.High)))
		}
	}
	return far
}
