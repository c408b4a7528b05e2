// Package sizing searches the dimensions of an element for the quietest choice within a budget. It knows no acoustics:
// the caller evaluates a choice.
package sizing

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sort"
	"sync"

	"hushwake/source/cores"
	"hushwake/source/said"
)

// Variable is one dimension that may be chosen.
type Variable struct {
	Name      string
	Low, High float64 // in the unit of the caller
	Steps     int     // steps between Low and High, as makers offer sizes; 0 = any value
}

// Outcome is what one choice of dimensions gives.
type Outcome struct {
	Level                   float64  // dB(A) at the listener
	Pressure                float64  // Pa, rated
	Length, Diameter, Price *float64 // m, m, currency; nil = unknown
	Refused                 bool
}

// Budget holds the limits a choice must keep; nil = none.
type Budget struct {
	Pressure, Length, Diameter, Price *float64
}

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
	Exhaustive  bool // every combination was tried
	Cancelled   bool // stopped early: Best is the best so far
	Notes       []string
}

// Numbers of evaluations.
const (
	globalPoints = 400 // low-discrepancy points, or all combinations where there are no more
	polishStarts = 4
	polishPoints = 120 // at each start
	frontSize    = 24
)

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
	return s.result(all, exhaustive)
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

type search struct {
	ctx      context.Context
	vars     []Variable
	eval     func(x []float64) (Outcome, error)
	budget   Budget
	progress func(done, total int)

	mu          sync.Mutex
	done, total int
	known       map[string]func() (Outcome, error) // by dimensions: several starts come by the same
}

// trial is one evaluated point: u in the unit box, what came of it, and its cost.
type trial struct {
	u    []float64
	out  Outcome
	cost float64
	ok   bool
	err  error
}

// snap turns a point of the unit box into dimensions; stepped ones go to the nearest size.
func (s *search) snap(u []float64) (x, back []float64) {
	x, back = make([]float64, len(u)), make([]float64, len(u))
	for i, v := range s.vars {
		t := math.Min(math.Max(u[i], 0), 1)
		if v.Steps > 0 {
			t = math.Round(t*float64(v.Steps)) / float64(v.Steps)
		}
		if v.High == v.Low {
			t = 0
		}
		x[i], back[i] = v.Low+t*(v.High-v.Low), t
	}
	return x, back
}

// evaluate evaluates a point.
func (s *search) evaluate(u []float64) trial {
	x, back := s.snap(u)
	t := trial{u: back, cost: 1e6}
	if s.ctx.Err() != nil {
		return t
	}
	out, err := s.once(x)()
	s.mu.Lock()
	defer s.mu.Unlock()
	s.done++
	if s.progress != nil {
		s.progress(min(s.done, s.total), s.total)
	}
	if err != nil || math.IsNaN(out.Level) || math.IsNaN(out.Pressure) || math.IsInf(out.Level, 0) || math.IsInf(out.Pressure, 0) {
		t.err = err
		return t
	}
	t.out, t.ok = out, true
	t.cost = s.cost(out)
	return t
}

// once is the evaluation of some dimensions, made by whoever asks first.
func (s *search) once(x []float64) func() (Outcome, error) {
	key := fmt.Sprint(x)
	s.mu.Lock()
	defer s.mu.Unlock()
	f, ok := s.known[key]
	if !ok {
		f = sync.OnceValues(func() (Outcome, error) { return s.eval(x) })
		s.known[key] = f
	}
	return f
}

// cost is the level where the budget is kept; over it, 1000 and more by how much it is exceeded.
func (s *search) cost(o Outcome) float64 {
	over := 0.0
	add := func(v, limit *float64) {
		if v != nil && limit != nil && *v > *limit {
			over += (*v - *limit) / math.Max(math.Abs(*limit), 1e-12)
		}
	}
	add(&o.Pressure, s.budget.Pressure)
	add(o.Length, s.budget.Length)
	add(o.Diameter, s.budget.Diameter)
	add(o.Price, s.budget.Price)
	switch {
	case o.Refused:
		return 2000 + 100*over
	case over > 0:
		return 1000 + 100*over
	}
	return o.Level
}

// withinBudget is true where the point is within the budget.
func (t trial) withinBudget() bool { return t.ok && t.cost < 1000 }

func (s *search) evaluateAll(points [][]float64) []trial {
	all := make([]trial, len(points))
	cores.Each(len(points), func(i int) { all[i] = s.evaluate(points[i]) })
	return all
}

// result sorts out the best and the front.
func (s *search) result(all []trial, exhaustive bool) (Result, error) {
	r := Result{Evaluations: s.done, Cancelled: s.ctx.Err() != nil}
	r.Exhaustive = exhaustive && !r.Cancelled
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
