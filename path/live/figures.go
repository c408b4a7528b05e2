package live

import (
	"reflect"
	"slices"

	"hushwake/path"
	"hushwake/path/report"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

// again reads the present text and looks at it.
func (s *Session) again() {
	s.load()
	s.figure(s.look)
}

// figure works figures of the present text out; what cannot be is a slip of the text.
func (s *Session) figure(how func() error) {
	if s.boat == nil {
		return
	}
	s.slips = nil
	if err := how(); err != nil {
		s.slips = []Slip{slipAt("", err)}
	}
}

// look makes the figures of the present text in the quick form, unless better ones are there.
func (s *Session) look() error {
	if f := s.remembered(); f != nil && !slices.Contains(f.Waiting, s.layout) {
		s.figures = f
		return nil
	}
	switch {
	case len(s.boat.Layouts) == 0:
		return report.NoLayouts(s.boat)
	case len(s.boat.Listeners) == 0:
		return report.NoListeners(s.boat)
	}
	base := s.base
	if base == nil || !reflect.DeepEqual(base.known.File.Readings, s.boat.Readings) {
		return s.know(Quick, plain{&s.memo, s.missing() == 0}, draws.Options{N: readings.QuickDraws}, s.boat.Layouts)
	}
	layouts, waiting := s.shown()
	var central []path.Prediction
	var same []int
	for _, l := range layouts {
		p, at, err := s.quick(l)
		if err != nil {
			return err
		}
		central, same = append(central, p), append(same, at)
	}
	known, err := base.known.Edited(s.boat, central, same)
	if err != nil {
		return err
	}
	return s.show(&Figures{Stamp: s.is.stamp, Form: Quick, Waiting: waiting, known: known}, layouts)
}

// shown are the layouts that a quick look shows: the chosen one, the edited one, and those that are worked out already.
func (s *Session) shown() (layouts []*path.Layout, waiting []string) {
	for _, l := range s.boat.Layouts {
		if l.Name == s.layout || l.Base == s.touched || s.memo.holds(s.whole, l, path.Full) || s.memo.holds(s.whole, l, path.Fast) {
			layouts = append(layouts, l)
		} else {
			waiting = append(waiting, l.Name)
		}
	}
	return layouts, waiting
}

// quick is a layout as the full form has it, where that is known, and its place in the base if it stands there with the same
// content; else in the fast form with what that misses in the layout of its name put right.
func (s *Session) quick(l *path.Layout) (p path.Prediction, same int, err error) {
	if s.memo.holds(s.whole, l, path.Full) {
		p, err = s.memo.Predict(s.whole, l, path.Full)
		return p, s.base.place(p), err
	}
	if p, err = s.memo.Predict(s.whole, l, path.Fast); err != nil {
		return p, -1, err
	}
	if at := s.base.place(p); at >= 0 {
		return p, at, nil
	}
	at := slices.IndexFunc(s.base.known.Central, func(was path.Prediction) bool { return was.Layout.Name == l.Name })
	if at < 0 || s.base.Form != Full {
		return p, -1, nil
	}
	fast, err := s.base.fast(at)
	if err != nil {
		return p, -1, err
	}
	return putRight(p, s.base.known.Central[at], fast), -1, nil
}

// place is where a prediction stands among those known, -1 = nowhere.
func (f *Figures) place(p path.Prediction) int {
	return slices.IndexFunc(f.known.Central, func(was path.Prediction) bool {
		return was.Layout.Name == p.Layout.Name && len(was.Listeners) == len(p.Listeners) &&
			(len(p.Listeners) == 0 || &was.Listeners[0] == &p.Listeners[0])
	})
}

// fast is a known layout in the fast form, once.
func (f *Figures) fast(at int) (path.Prediction, error) {
	if p, ok := f.plane[at]; ok {
		return p, nil
	}
	p, err := f.known.Session().PredictFor(f.known.Boat, f.known.Central[at].Layout, path.Fast)
	if err == nil {
		f.plane[at] = p
	}
	return p, err
}

// putRight adds to each way what the fast form misses of the full one there, in a layout known in both forms; to a way that
// it does not have, what it misses at the place.
func putRight(p, full, fast path.Prediction) path.Prediction {
	p.Listeners = slices.Clone(p.Listeners)
	for j := range p.Listeners {
		h := &p.Listeners[j]
		at := func(all []path.Heard) *path.Heard {
			for i := range all {
				if all[i].Listener.Name == h.Listener.Name {
					return &all[i]
				}
			}
			return nil
		}
		fine, plain := at(full.Listeners), at(fast.Listeners)
		if fine == nil || plain == nil {
			continue
		}
		rest := spectrum.Fill(fine.DBA() - plain.DBA())
		h.Move(func(r path.Route) spectrum.Bands {
			a, b := way(fine, r), way(plain, r)
			if a == nil || b == nil {
				return rest
			}
			return a.Bands.Minus(b.Bands)
		})
	}
	return p
}

// way is the route of a place with the source and words of another.
func way(h *path.Heard, r path.Route) *path.Route {
	for i := range h.Routes {
		if h.Routes[i].Source == r.Source && h.Routes[i].Route == r.Route {
			return &h.Routes[i]
		}
	}
	return nil
}

// plain works layouts out for a quick look: as the full form has them where they are known so, or where all are, else by plane
// waves.
type plain struct {
	*memo
	fine bool // all layouts are known in full
}

func (a plain) Predict(b *path.Boat, l *path.Layout, form path.Form) (path.Prediction, error) {
	if !a.fine && !a.holds(b, l, form) {
		form = path.Fast
	}
	return a.memo.Predict(b, l, form)
}

// full makes the figures of the present text as compare does.
func (s *Session) full() error {
	if s.boat == nil {
		return nil
	}
	if f := s.remembered(); f != nil && f.Form == Full {
		s.figures = f
		return nil
	}
	return s.know(Full, &s.memo, draws.Options{}, s.boat.Layouts)
}

// know works out what is known of the boat and makes it the base of quick looks.
func (s *Session) know(form string, from readings.Predictions, d draws.Options, layouts []*path.Layout) error {
	known, err := report.Know(s.boat, readings.Options{Options: d, From: from})
	if err != nil {
		return err
	}
	f := &Figures{Stamp: s.is.stamp, Form: form, known: known, plane: map[int]path.Prediction{}}
	if err := s.show(f, layouts); err != nil {
		return err
	}
	s.base = f
	return nil
}

// show makes the comparison of what is known and keeps it.
func (s *Session) show(f *Figures, layouts []*path.Layout) (err error) {
	if f.Comparison, err = report.NewComparison(s.boat, layouts, s.seat(), f.known); err != nil {
		return err
	}
	f.seat = s.listener
	s.figures = f
	var kept []*Figures
	count := map[string]int{}
	for _, was := range append([]*Figures{f}, s.recent...) {
		if count[was.Form]++; was == f || was.Stamp != f.Stamp && count[was.Form] <= kepts[was.Form] {
			kept = append(kept, was)
		}
	}
	s.recent = kept
	return nil
}

// kepts is how many figures are kept for texts that come back.
var kepts = map[string]int{Full: 2, Quick: 4}

// remembered are the best figures that are kept of the present text, ordered by the chosen listener.
func (s *Session) remembered() *Figures {
	i := slices.IndexFunc(s.recent, func(f *Figures) bool { return f.Stamp == s.is.stamp })
	if i < 0 {
		return nil
	}
	f := s.recent[i]
	if f.seat != s.listener {
		again := *f
		w, err := report.NewComparison(f.Comparison.Boat, layoutsOf(f.Comparison), s.seat(), f.known)
		if err != nil {
			return nil
		}
		again.Comparison, again.seat = w, s.listener
		s.recent[i] = &again
		f = &again
	}
	return f
}

func layoutsOf(w *report.Comparison) (out []*path.Layout) {
	for i := range w.Predictions {
		out = append(out, w.Predictions[i].Layout)
	}
	return out
}

// left counts the steps to the full form of the present text.
func (s *Session) left() int {
	if s.boat == nil || s.figures == nil || s.figures.Stamp != s.is.stamp || s.figures.Form == Full {
		return 0
	}
	return 1 + s.missing()
}

// missing counts the layouts that are not known in full.
func (s *Session) missing() (n int) {
	for _, l := range s.boat.Layouts {
		if !s.memo.holds(s.whole, l, path.Full) {
			n++
		}
	}
	return n
}

// further works out one more layout in full, and all together when each is.
func (s *Session) further() error {
	if s.boat == nil {
		return nil
	}
	for _, l := range s.boat.Layouts {
		if !s.memo.holds(s.whole, l, path.Full) {
			_, err := s.memo.Predict(s.whole, l, path.Full)
			return err
		}
	}
	return s.full()
}
