// Package sizing searches the dimensions of an element for the quietest choice within a budget. It knows no acoustics:
// the caller evaluates a choice.
package sizing

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sort"

	"hushwake/source/said"
)

// Found is one choice with its outcome.
type Found struct {
	X []float64
	Outcome
}

// Result is the outcome of a search.
type Result struct {
	Best        *Found  // nil: none within the budget was found
	Front       []Found // level, pressure, length and price traded off, quietest first
	Evaluations int
	Cancelled   bool // stopped early: Best is the best so far
	Notes       []string
}

// Search looks for the quietest choice within the budget: every combination where there are few,
// otherwise Halton's low-discrepancy points (Halton 1960) over the whole box, with the best polished
// by the simplex of Nelder and Mead (1965) and by single and paired steps. The same input gives the
// same answer on any number of cores. eval is called from several goroutines at once.
func Search(ctx context.Context, vars []Variable, eval func(x []float64) (Outcome, error), budget Budget,
	progress func(done, total int)) (Result, error) {
	if err := checkVariables(vars); err != nil {
		return Result{}, err
	}
	s := &search{ctx: ctx, vars: vars, eval: eval, budget: budget, progress: progress, known: map[string]func() (Outcome, error){}}
	points, exhaustive := s.points()
	s.total = len(points)
	if !exhaustive {
		s.total += polishStarts * polishPoints
	}
	all := s.evaluateAll(points)
	if !exhaustive && ctx.Err() == nil {
		all = append(all, s.polish(all)...)
	}
	return s.result(all)
}

func checkVariables(vars []Variable) error {
	if len(vars) == 0 {
		return errors.New("nothing to size\nhint: name an element that has dimensions, such as a chamber")
	}
	for _, v := range vars {
		if !(v.Low <= v.High) || math.IsInf(v.Low, 0) || math.IsInf(v.High, 0) || v.Steps < 0 {
			return fmt.Errorf("the range of %s is empty: %g to %g", v.Name, v.Low, v.High)
		}
	}
	return nil
}

// result sorts out the best and the front.
func (s *search) result(all []trial) (Result, error) {
	r := Result{Evaluations: s.done, Cancelled: s.ctx.Err() != nil}
	if err := failure(all); err != nil && !r.Cancelled {
		return r, err
	}
	var kept []trial
	for _, t := range all {
		if t.withinBudget() {
			kept = append(kept, t)
		}
	}
	sort.SliceStable(kept, func(i, j int) bool { return kept[i].cost < kept[j].cost })
	if len(kept) == 0 {
		r.Notes = append(r.Notes, "no choice within the budget was found: "+s.nearest(all))
		return r, nil
	}
	best := s.choice(kept[0])
	r.Best = &best
	for _, t := range thinned(front(kept)) {
		r.Front = append(r.Front, s.choice(t))
	}
	if s.budget.Price != nil && best.Price == nil {
		r.Notes = append(r.Notes, "the price of the element is not known: the price budget could not be kept to")
	}
	return r, nil
}

// failure is an error where not one choice could be computed.
func failure(all []trial) error {
	failed := errors.New("every level is out of range")
	for i := len(all) - 1; i >= 0; i-- {
		switch {
		case all[i].ok:
			return nil
		case all[i].err != nil:
			failed = all[i].err
		}
	}
	return fmt.Errorf("no choice could be computed: %w", failed)
}

func (s *search) choice(t trial) Found {
	x, _ := s.snap(t.u)
	return Found{X: x, Outcome: t.out}
}

// nearest says what the choice closest to the budget misses.
func (s *search) nearest(all []trial) string {
	best := trial{cost: math.Inf(1)}
	for _, t := range all {
		if t.ok && t.cost < best.cost {
			best = t
		}
	}
	switch {
	case !best.ok:
		return "the search was stopped too early"
	case best.out.Refused:
		return "every choice is refused for a danger or a limit of its own"
	}
	return said.Textf("the nearest gives %.1f dB(A) at {%.2f kPa}", best.out.Level, best.out.Pressure/1000)
}
