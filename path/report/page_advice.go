package report

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/stat"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/study/advice"
	"hushwake/path/study/readings"
)

// InDetail are the layouts of which the page tells more than of the rest: the one that is chosen, else the first, and
// today's.
func (r *Page) InDetail() []int {
	first := max(r.Chosen, 0)
	if r.Today < 0 || r.Today == first {
		return []int{first}
	}
	return []int{first, r.Today}
}

// indexOf is the place of a layout among the predictions.
func (w *Comparison) indexOf(layout string) int {
	return slices.IndexFunc(w.Predictions, func(p path.Prediction) bool { return p.Layout.Name == layout })
}

// pageChoice says which layout is chosen and which is on board.
func (w *Comparison) pageChoice(r *Page, order []int) {
	at := w.PlacesOnPage(order)
	place := func(layout string) int {
		if k, shown := at[layout]; shown {
			return k
		}
		return -1
	}
	r.Chosen, r.Today = place(w.advise().Layout), place(w.today(0).Layout)
}

// pageHelps says what would help most.
func (w *Comparison) pageHelps(u form.Units) PageHelps {
	layout, helps := w.helps()
	return PageHelps{layout, form.Each(helps[:min(len(helps), helpsShown)], func(h advice.Help) PageChange { return PageChange{u.Local(h.Change), h.DB} })}
}

// pageMeasure weighs a reading by telephone at each place of today's layout: by how much the draws of the chosen
// layout's level would narrow, var = v - c^2/(s + sd^2) with v and s the variances of the two levels over the draws
// and c their covariance. A place that was read already on that layout is left out.
func (w *Comparison) pageMeasure(r *Page) {
	detailed := r.InDetail()
	chosen, today := w.indexOf(r.Layouts[detailed[0]].Name), w.indexOf(r.Layouts[detailed[len(detailed)-1]].Name)
	if w.Asked(chosen) || w.Asked(today) || len(w.Boat.Listeners) == 0 {
		return
	}
	answer := w.sample.Levels[chosen][w.Listener]
	v := stat.Variance(answer, nil)
	for j, l := range w.Boat.Listeners {
		if w.readOn(l.Name, w.Predictions[today].Layout.Name) {
			continue
		}
		seat := w.sample.Levels[today][j]
		c := stat.Covariance(answer, seat, nil)
		after := v - c*c/(stat.Variance(seat, nil)+readings.PhoneSD*readings.PhoneSD)
		r.Measure = append(r.Measure, PageMeasure{j, math.Sqrt(v), math.Sqrt(math.Max(after, 0))})
	}
	sort.SliceStable(r.Measure, func(a, b int) bool { return r.Measure[a].After < r.Measure[b].After })
}

// readOn says whether the file holds a level read at a listener with a layout on board.
func (w *Comparison) readOn(listener, layout string) bool {
	return slices.ContainsFunc(w.Known.Readings(), func(x path.Reading) bool {
		return !x.Strike && x.Listener == listener && x.Layout == layout && x.Level != nil
	})
}
