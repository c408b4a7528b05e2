package sizing

import (
	"fmt"
	"math"
	"sort"

	"hushwake/source/cores"
)

// polish improves the best points of the global search, each start on its own.
func (s *search) polish(all []trial) []trial {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return all[order[a]].cost < all[order[b]].cost })
	var starts []trial
	for _, i := range order {
		if all[i].ok && distinct(all[i], starts) && len(starts) < polishStarts {
			starts = append(starts, all[i])
		}
	}
	found := make([][]trial, len(starts))
	cores.Each(len(starts), func(i int) { found[i] = s.climb(starts[i]) })
	var out []trial
	for _, f := range found {
		out = append(out, f...)
	}
	return out
}

// distinct is true where the point does not lie next to one that is already a start.
func distinct(t trial, starts []trial) bool {
	for _, o := range starts {
		d := 0.0
		for i := range t.u {
			d = math.Max(d, math.Abs(t.u[i]-o.u[i]))
		}
		if d < 0.08 {
			return false
		}
	}
	return true
}

// climber is one start with a memory of what it has tried.
type climber struct {
	s     *search
	seen  map[string]trial
	order []trial
}

func (c *climber) at(u []float64) trial {
	_, back := c.s.snap(u)
	key := fmt.Sprint(back)
	if t, ok := c.seen[key]; ok {
		return t
	}
	if len(c.order) >= polishPoints {
		return trial{u: back, cost: 1e6}
	}
	t := c.s.evaluate(back)
	c.seen[key], c.order = t, append(c.order, t)
	return t
}

// climb goes by the simplex for half of the evaluations, then by steps.
func (s *search) climb(start trial) []trial {
	c := &climber{s: s, seen: map[string]trial{fmt.Sprint(start.u): start}}
	best := start
	objective := func(u []float64) float64 {
		t, outside := c.at(u), 0.0
		for i := range u {
			outside += math.Abs(u[i] - math.Min(math.Max(u[i], 0), 1))
		}
		if t.cost < best.cost {
			best = t
		}
		return t.cost + 100*outside
	}
	simplex(objective, start.u, 0.08, func() bool { return len(c.order) >= polishPoints/2 || s.ctx.Err() != nil })
	c.steps(best)
	return c.order
}

// steps tries single and paired moves of each dimension, ever smaller, until nothing helps.
func (c *climber) steps(best trial) {
	for size := 0.125; size > 1e-3; size /= 2 {
		for better := true; better && len(c.order) < polishPoints && c.s.ctx.Err() == nil; {
			better = false
			for _, move := range c.moves(size) {
				u := append([]float64(nil), best.u...)
				for i := range u {
					u[i] += move[i]
				}
				if t := c.at(u); t.cost < best.cost-1e-9 {
					best, better = t, true
				}
			}
		}
	}
}

// moves are +- the size along each dimension, and along pairs; a stepped dimension moves by whole steps.
func (c *climber) moves(size float64) (all [][]float64) {
	n := len(c.s.vars)
	step := make([]float64, n)
	for i, v := range c.s.vars {
		if step[i] = size; v.Steps > 0 {
			step[i] = math.Max(1, math.Round(size*float64(v.Steps))) / float64(v.Steps)
		}
	}
	for i := range n {
		for _, a := range []float64{1, -1} {
			m := make([]float64, n)
			m[i] = a * step[i]
			all = append(all, m)
			for j := i + 1; j < n; j++ {
				for _, b := range []float64{1, -1} {
					p := append([]float64(nil), m...)
					p[j] = b * step[j]
					all = append(all, p)
				}
			}
		}
	}
	return all
}
