package report

import (
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/study/sweep"
)

// Row is a layout in a short table beside the others.
type Row struct {
	Name          string
	Verdict       string   // ok | over limit | ask first | refused
	Because       string   // the same in words of a table
	Taken, Now    bool     // it is advised; it is the one on board now
	Price         string   // with its currency, "-" = not known
	PressureShare *float64 // of the engine's limit for back pressure, at rated; nil = no limit or not to be judged
	Heat          *float64 // W that the walls of the lines give to spaces at rated; nil = no line
	Fits          *bool    // nil = no envelope stated
	Questions     []string // to be asked before it can be judged
}

// Row is that of a layout, by its place in Predictions.
func (w *Comparison) Row(i int) Row {
	p := &w.Predictions[i]
	r := Row{Name: p.Layout.Name, Verdict: w.Verdict(i), Because: w.verdict(i), Taken: p.Layout.Name == w.advise().Layout, Now: i == w.Now(),
		Price: priceFrom(w.Boat, p.Layout.Price, p.Layout.Unpriced), Fits: p.Fits, Questions: w.asks[i].questions}
	if e := w.worstExhaust(i); e >= 0 && p.Exhausts[e].Limit != nil && !w.Asked(i) {
		r.PressureShare = form.Num(w.Spread.Layouts[i].Exhausts[e].Rated / *p.Exhausts[e].Limit)
	}
	for k := range p.Exhausts {
		e, ok := p.Layout.Engine(p.Exhausts[k].Engine)
		if !ok {
			continue
		}
		sum := form.Deref(r.Heat)
		for _, watts := range path.HeatTo(e, &p.Exhausts[k]) {
			sum += watts
		}
		r.Heat = form.Num(sum)
	}
	return r
}

// Now is the place in Predictions of the layout on board now, -1 where the file doesn't tell.
func (w *Comparison) Now() int {
	name := w.today(0).Layout
	return slices.IndexFunc(w.Predictions, func(p path.Prediction) bool { return p.Layout.Name == name })
}

// Said is the advice: first what to take and why, with what must be done before and the limits that stay broken; then the rest
// in sentences.
func (w *Comparison) Said() []string {
	a := w.advise()
	firm := max(a.Firm, 1)
	return append([]string{strings.Join(a.Sentences[:firm], " ")}, a.Sentences[firm:]...)
}

// Gain is a single change to a layout with what it does at each listener, dB; below zero is quieter.
type Gain struct {
	Change string
	Sealed string // the partition whose gaps it seals, "" = another change
	DB     []float64
}

// Gains are what would help a layout most, the most telling first; it predicts each of them.
func (w *Comparison) Gains(u form.Units) (layout string, all []Gain) {
	layout, helps := w.helps()
	for _, h := range helps[:min(len(helps), helpsShown)] {
		all = append(all, Gain{u.Local(h.Change), h.Sealed, h.DB})
	}
	return layout, all
}

// Speeds sweeps a layout over the speed of its engines, or over the load of a set at its one speed.
func (w *Comparison) Speeds(layout int) (out PageSweep, overLoad bool, err error) {
	l := w.Predictions[layout].Layout
	over := dutiesOf([]*path.Layout{l})
	out, err = w.swept(layout, l, over)
	return out, over.OverLoad, err
}

// Swept are the names of the engines of a layout that run with its speed.
func (w *Comparison) Swept(layout int) (names []string) {
	for name := range sweep.Engines(w.Predictions[layout].Layout) {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
