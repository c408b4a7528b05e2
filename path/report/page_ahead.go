package report

import (
	"cmp"
	"slices"

	"hushwake/path"
	"hushwake/path/report/parts"
	"hushwake/path/study/advice"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/path/study/sweep"
)

// Ahead begins beside a comparison what its page asks for whatever comes of it: the published checks, and the engines of
// the layout on board, else of the first, at the speeds of the page. What it returns is told of the predictions before the
// draws, and goes on with the sweeps of the layout on board and of the one that would be advised by them as they stand.
// What is worked out is remembered and the same at any time: who doesn't wait for it loses nothing but time.
func Ahead(b *path.Boat, layouts []*path.Layout, listener int) func(*readings.Known) {
	if len(layouts) == 0 {
		return nil
	}
	l := layouts[0]
	if now, _, foreseen := b.Present(); foreseen {
		l = now
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		verified()
		over := dutiesOf([]*path.Layout{l})
		for _, at := range over.At {
			engines := over.Of(l, at).Engines
			for i := range engines {
				if !engines[i].Stopped {
					path.Points.Sources(&engines[i]) // an error comes back when it is asked for
				}
			}
		}
	}()
	return func(k *readings.Known) {
		work := foresee(k, b, layouts, listener)
		go func() {
			<-done
			work()
		}()
	}
}

// foresee promises the points that the page will sweep if the advice stands as the predictions do: those of today first,
// which is sure, then those of the other from its end, while who asks begins at the front.
func foresee(k *readings.Known, b *path.Boat, layouts []*path.Layout, listener int) (work func()) {
	foreseen := []*path.Layout{guess(k, b, layouts, listener)}
	if now, _, on := b.Present(); on && now != foreseen[0] && slices.Contains(layouts, now) {
		foreseen = append(foreseen, now)
	}
	over := dutiesOf(foreseen)
	var all []readings.Point
	for n, l := range foreseen {
		for _, at := range every(1+n*(plainEvery-1), over, sweep.RunningSpeed(foreseen)).At {
			all = append(all, readings.Point{Boat: b, Layout: l, At: at})
		}
	}
	slices.Reverse(all)
	return parts.Foresee(k, all, over)
}

// guess is the layout that would be advised by the predictions before draws and readings, else the first.
func guess(k *readings.Known, b *path.Boat, layouts []*path.Layout, listener int) *path.Layout {
	w := &Comparison{Boat: b, Known: k, Listener: listener}
	for _, p := range k.Central {
		if !slices.Contains(layouts, p.Layout) {
			continue
		}
		s := draws.LayoutSpread{Name: p.Layout.Name}
		for _, x := range p.Exhausts {
			s.Exhausts = append(s.Exhausts, draws.PressureSpread{Engine: x.Engine, Rated: x.Rated.BackPressure})
		}
		p = heardBy(p, b.Listeners)
		levels := make([][]float64, len(p.Listeners))
		for j, h := range p.Listeners {
			levels[j] = []float64{h.DBA(), h.DBA()} // draws that do not differ
		}
		w.Predictions, w.Spread.Layouts = append(w.Predictions, p), append(w.Spread.Layouts, s)
		w.sample.Levels, w.asks = append(w.sample.Levels, levels), append(w.asks, asked{questions: p.Questions})
	}
	advised := func() *path.Layout {
		l, _ := b.Layout(advice.Advise(w.choices(), w.seats(), listener, b.Currency).Layout)
		return l
	}
	if l := advised(); l != nil {
		return l
	}
	for i := range w.Predictions { // every one is refused: a pressure that was read may clear them
		w.Predictions[i].Refused, w.Spread.Layouts[i].Exhausts = false, make([]draws.PressureSpread, len(w.Spread.Layouts[i].Exhausts))
	}
	return cmp.Or(advised(), layouts[0])
}
