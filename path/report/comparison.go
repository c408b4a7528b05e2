package report

import (
	"fmt"
	"slices"
	"sync"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/advice"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source"
	"hushwake/source/said"
)

// Comparison is a boat with its layouts predicted and their bands drawn.
type Comparison struct {
	Boat        *path.Boat
	Known       *readings.Known
	Predictions []path.Prediction // at the middle of the draws
	Model       *draws.Model
	Spread      draws.Spread
	before      *draws.Spread // see uncorrected
	sample      draws.Sample
	asks        []asked // for each layout what has to be asked before it can be judged
	advised     *advice.Advice
	Listener    int                 // the one that tables are ordered by
	front       []advice.Tradeoff   // see fronts
	help        *helped             // see helps
	Ears        func() [][]path.Ear // of each layout at each place, worked out once
}

// Know works out what is known of a boat: all its layouts at all its places, after the readings of its file.
func Know(b *path.Boat, o readings.Options) (*readings.Known, error) {
	switch {
	case len(b.Layouts) == 0:
		return nil, NoLayouts(b)
	case len(b.Listeners) == 0:
		return nil, NoListeners(b)
	case o.N < 0:
		return nil, fmt.Errorf("--draws %d: a number of draws is wanted\nhint: %d is the default", o.N, draws.DefaultNumber)
	}
	return readings.Know(b, o)
}

// NewComparison takes layouts and the listeners of b from what is known of the boat; the listener orders the tables.
func NewComparison(b *path.Boat, layouts []*path.Layout, listener int, known *readings.Known) (*Comparison, error) {
	w := &Comparison{Boat: b, Known: known, Listener: listener}
	if err := w.narrow(layouts); err != nil {
		return nil, &form.Failure{Err: err}
	}
	if err := w.askFirst(); err != nil {
		return nil, err
	}
	for i := range w.Predictions {
		w.Model.Layouts[i].Refused = w.Predictions[i].Refused || w.Asked(i)
	}
	w.Spread = w.Model.SpreadOf(w.sample)
	w.spanAsked()
	w.Ears = sync.OnceValue(func() [][]path.Ear { return path.Ears(w.Predictions) })
	return w, nil
}

// Uncorrected is the spread without the readings, worked out once.
func (w *Comparison) Uncorrected() draws.Spread {
	if w.before == nil {
		s := w.Spread
		if w.Known.Draws.Moved {
			s = w.Model.Spread(w.Known.Before)
		}
		w.before = &s
	}
	return *w.before
}

// narrow takes predictions, model and draws of the layouts at the listeners.
func (w *Comparison) narrow(layouts []*path.Layout) (err error) {
	var central []path.Prediction
	var at, seats []int
	for _, l := range layouts {
		for i := range w.Known.Central {
			if w.Known.Central[i].Layout.Name == l.Name {
				at = append(at, i)
				central = append(central, heardBy(w.Known.Central[i], w.Boat.Listeners))
				w.Predictions = append(w.Predictions, heardBy(w.Known.Predictions[i], w.Boat.Listeners))
			}
		}
	}
	for _, l := range w.Boat.Listeners {
		seats = append(seats, slices.IndexFunc(w.Known.Boat.Listeners, func(k path.Listener) bool { return k.Name == l.Name }))
	}
	w.sample = w.Known.Sample.Only(at, seats)
	w.Model, err = draws.NewModel(central)
	return err
}

// heardBy narrows a prediction to some listeners.
func heardBy(p path.Prediction, listeners []path.Listener) path.Prediction {
	all := p.Listeners
	p.Listeners = nil
	for _, l := range listeners {
		for _, h := range all {
			if h.Listener.Name == l.Name {
				p.Listeners = append(p.Listeners, h)
			}
		}
	}
	return p
}

// NoLayouts is the error for a file without layouts.
func NoLayouts(b *path.Boat) error {
	return fmt.Errorf("%s holds no layouts\nhint: add a layouts section; 'hushwake start dry-stack' shows one", b.File)
}

// NoListeners is the error for a file in which nobody listens.
func NoListeners(b *path.Boat) error {
	if b.Bench != nil {
		return fmt.Errorf("%s is a bench file: nobody listens there\nhint: 'hushwake line %s' shows its loss", b.File, form.File(b.File))
	}
	return fmt.Errorf("%s holds no listeners\nhint: add where people hear, with in and at", b.File)
}

// Seat is the name of the listener that tables are ordered by.
func (w *Comparison) Seat() string { return w.Boat.Listeners[w.Listener].Name }

// Order gives the layouts by level at a listener, refused ones last.
func (w *Comparison) Order(listener int) []int {
	place := map[string]int{}
	for i, p := range w.Predictions {
		place[p.Layout.Name] = i
	}
	var out []int
	for _, r := range advice.Rank(w.Predictions, w.Spread)[listener].Rows {
		out = append(out, place[r.Layout])
	}
	return out
}

// fronts works the trade-off out once.
func (w *Comparison) fronts() []advice.Tradeoff {
	if w.front == nil {
		judged := slices.Clone(w.Predictions)
		for i := range judged {
			judged[i].Refused = judged[i].Refused || w.Asked(i)
		}
		w.front = advice.Front(judged)
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
			if key := said.Plain(fmt.Sprint(a.Field, a.Value, a.Source)); !seen[key] {
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

// answer is what the owner should know, in a few plain sentences.
func (w *Comparison) answer() []string {
	all := advice.Rank(w.Predictions, w.Spread)
	r := all[w.Listener]
	var terms []draws.Share
	if len(r.Rows) > 0 {
		terms = w.Model.MattersIn(w.Known.Draws, r.Rows[0].Layout, r.Listener)
	}
	out := slices.DeleteFunc(advice.Answer(w.advise(), r, terms, w.read(r.Listener)), func(s string) bool { return s == "" })
	return append(out, "To the ear 3 dB is barely a difference; how many times as loud is told by sones.")
}

// read says whether a reading of the level at a listener moved the draws.
func (w *Comparison) read(listener string) bool {
	return slices.ContainsFunc(w.Known.Readings(), func(r path.Reading) bool {
		return !r.Strike && r.Listener == listener && r.HasSound()
	})
}
