package sizing

import (
	"context"
	"fmt"
	"math"
	"sync"

	"hushwake/source/cores"
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

// Numbers of evaluations.
const (
	globalPoints = 400 // low-discrepancy points, or all combinations where there are no more
	polishStarts = 4
	polishPoints = 120 // at each start
	frontSize    = 24
)

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
