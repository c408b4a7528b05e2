package report

import (
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study"
	"hushwake/source"
)

// Comparison is a boat with its layouts predicted and their bands drawn.
type Comparison struct {
	Boat        *path.Boat
	Predictions []path.Prediction
	model       *study.Model
	Spread      study.Spread
	Listener    int              // the one that tables are ordered by
	front       []study.Tradeoff // see fronts
}

// NewComparison predicts layouts of a boat and draws their uncertainty; the listener orders the tables.
func NewComparison(b *path.Boat, layouts []*path.Layout, listener int, draws study.Draws) (*Comparison, error) {
	switch {
	case len(layouts) == 0:
		return nil, NoLayouts(b)
	case len(b.Listeners) == 0:
		return nil, NoListeners(b)
	case draws.N < 0:
		return nil, fmt.Errorf("--draws %d: a number of draws is wanted\nhint: %d is the default", draws.N, study.DefaultDraws)
	}
	w := &Comparison{Boat: b, Listener: listener}
	var err error
	if w.Predictions, err = predictAll(b, layouts); err != nil {
		return nil, err
	}
	if w.model, err = study.NewModel(w.Predictions); err != nil {
		return nil, &form.Failure{Err: err}
	}
	if w.Spread, err = w.model.MonteCarlo(w.model.Prior(), draws); err != nil {
		return nil, &form.Failure{Err: err}
	}
	return w, nil
}

// NoLayouts is the error for a file without layouts.
func NoLayouts(b *path.Boat) error {
	return fmt.Errorf("%s holds no layouts\nhint: add a layouts section; 'hushwake start dry-stack' shows one", b.File)
}

// NoListeners is the error for a file in which nobody listens.
func NoListeners(b *path.Boat) error {
	if b.Bench != nil {
		return fmt.Errorf("%s is a bench file: nobody listens there\nhint: 'hushwake line %s' shows its loss", b.File, b.File)
	}
	return fmt.Errorf("%s holds no listeners\nhint: add where people hear, with in and at", b.File)
}

// predictAll predicts layouts side by side; the result is in their order.
func predictAll(b *path.Boat, layouts []*path.Layout) ([]path.Prediction, error) {
	out := make([]path.Prediction, len(layouts))
	errs := make([]error, len(layouts))
	sideBySide(len(layouts), func(i int) {
		if out[i], errs[i] = path.Predict(b, layouts[i]); errs[i] == nil {
			errs[i] = path.PassBy(b, &out[i])
		}
	})
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// sideBySide runs do for 0 to n-1 on as many threads as there are processors.
func sideBySide(n int, do func(i int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	wait.Wait()
}

// seat is the name of the listener that tables are ordered by.
func (w *Comparison) seat() string { return w.Boat.Listeners[w.Listener].Name }

// OverLimit says whether a stated limit is exceeded by the central value of any layout.
func (w *Comparison) OverLimit() bool {
	for i, p := range w.Predictions {
		for j, r := range p.Exhausts {
			if r.Limit != nil && w.Spread.Layouts[i].Exhausts[j].Rated > *r.Limit {
				return true
			}
		}
		for j, h := range p.Listeners {
			if h.Listener.Limit != nil && w.Spread.Layouts[i].Listeners[j].Level > *h.Listener.Limit {
				return true
			}
		}
	}
	return false
}

// order gives the layouts by level at a listener, refused ones last.
func (w *Comparison) order(listener int) []int {
	place := map[string]int{}
	for i, p := range w.Predictions {
		place[p.Layout.Name] = i
	}
	var out []int
	for _, r := range study.Rank(w.Predictions, w.Spread)[listener].Rows {
		out = append(out, place[r.Layout])
	}
	return out
}

// fronts works the trade-off out once.
func (w *Comparison) fronts() []study.Tradeoff {
	if w.front == nil {
		w.front = study.Front(w.Predictions)
	}
	return w.front
}

// worstPressure is the rated back pressure of the exhaust nearest to (or furthest over) its limit, Pa.
func (w *Comparison) worstPressure(layout int) *float64 {
	e := w.worstExhaust(layout)
	if e < 0 {
		return nil
	}
	v := w.Spread.Layouts[layout].Exhausts[e].Rated
	return &v
}

func (w *Comparison) worstExhaust(layout int) int {
	best, share := -1, -1.0
	for j, r := range w.Predictions[layout].Exhausts {
		s := w.Spread.Layouts[layout].Exhausts[j].Rated / 1e9 // without a limit the highest counts
		if r.Limit != nil && *r.Limit > 0 {
			s = w.Spread.Layouts[layout].Exhausts[j].Rated / *r.Limit
		}
		if s > share {
			best, share = j, s
		}
	}
	return best
}

// assumptions are the values the program filled in for the file and for each layout, each once.
func (w *Comparison) assumptions() []parts.Assumption {
	out := []parts.Assumption{}
	seen := map[string]bool{}
	add := func(all []source.Assumption) {
		for _, a := range all {
			if key := fmt.Sprint(a.Field, a.Value, a.Source); !seen[key] {
				seen[key] = true
				out = append(out, parts.NewAssumption(a))
			}
		}
	}
	add(w.Boat.Assumptions)
	for _, p := range w.Predictions {
		add(p.Assumptions)
	}
	return out
}

func (w *Comparison) layoutNames() []string {
	return form.Each(w.Predictions, func(p path.Prediction) string { return p.Layout.Name })
}

// answer is what the owner should know, in two or three plain sentences.
func (w *Comparison) answer() []string {
	all := study.Rank(w.Predictions, w.Spread)
	r := all[w.Listener]
	var terms []study.Share
	if len(r.Rows) > 0 {
		terms = w.model.Matters(w.model.Prior(), r.Rows[0].Layout, r.Listener)
	}
	out := study.Answer(r, terms)
	if text := study.Elsewhere(all, w.Listener); text != "" {
		out[0] += " " + text
	}
	return append(out, "To the ear 3 dB is barely a difference; 10 dB less is about half as loud.")
}
