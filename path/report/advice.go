package report

import (
	"fmt"
	"math"
	"slices"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/study/advice"
	"hushwake/path/study/readings"
	"hushwake/silencer/safety"
)

// Advice is what to do.
type Advice struct {
	Layout *string  `json:"layout"` // null where nothing can be advised
	Same   []string `json:"same"`   // nobody tells them from it
	Text   string   `json:"text"`
	Helps  []Change `json:"helps"`
}

// Change is one change to the layout of today, or else to the advised one, with what it does at each place, dB.
type Change struct {
	Layout string                 `json:"layout"`
	Change string                 `json:"change"`
	DB     map[string]form.Number `json:"change_dba"`
}

// seats are the listeners as the advice weighs them.
func (w *Comparison) seats() []advice.Seat { return seatsOf(w.Boat.Listeners) }

func seatsOf(all []path.Listener) (out []advice.Seat) {
	for _, l := range all {
		out = append(out, advice.Seat{Name: l.Name, Hours: l.Hours, Limit: l.Limit})
	}
	return out
}

// choices are the layouts as the advice weighs them.
func (w *Comparison) choices() []advice.Choice {
	today := w.today(0).Layout
	out := make([]advice.Choice, len(w.Predictions))
	for i := range w.Predictions {
		p := &w.Predictions[i]
		c := advice.Choice{Layout: p.Layout.Name, Levels: w.sample.Levels[i], Price: p.Layout.Price, From: len(p.Layout.Unpriced) > 0, Wet: p.Layout.Wet(),
			Today: p.Layout.Name == today, Out: p.Refused || w.Asked(i) || readings.OverMeasured(p), Asked: w.Asked(i) && !p.Refused && !readings.OverMeasured(p)}
		if e := w.worstExhaust(i); e >= 0 && p.Exhausts[e].Limit != nil {
			c.Pressure = w.Spread.Layouts[i].Exhausts[e].Rated / *p.Exhausts[e].Limit
		}
		for _, x := range p.Exhausts {
			if x.Box != nil {
				for _, v := range x.Box.Air.Verdicts {
					c.Starved, c.Cooked = c.Starved || v.Code == "starved", c.Cooked || v.Code == "cooked"
				}
			}
		}
		for _, f := range p.Findings {
			c.Tight = c.Tight || f.Code == safety.CodeTight
			if d := dangers[f.Code]; d != "" && f.Severity == safety.Danger {
				c.Dangers = addOnce(c.Dangers, d)
			} else if d != "" {
				c.Lesser = addOnce(c.Lesser, d)
			}
		}
		c.Slots = w.slots(p.Layout)
		out[i] = c
	}
	return out
}

// dangers to people by the code of their finding, as the advice speaks of them.
var dangers = map[string]string{"CO-NEAR-OPENING": "exhaust gas drawn in where people sleep", "SURFACE-IGNITES": "fire on hot parts of the line"}

// slots is the command that fills what a layout leaves open; "" where it is whole.
func (w *Comparison) slots(l *path.Layout) string {
	if l.Slots == nil {
		return ""
	}
	return "hushwake choose " + form.File(w.Boat.File) + " --layout " + form.Shell(l.Name)
}

// advise works the advice out once.
func (w *Comparison) advise() advice.Advice {
	if w.advised == nil {
		all := w.choices()
		for i, ears := range w.Ears() {
			for _, e := range ears {
				all[i].Sones = append(all[i].Sones, e.Sone)
			}
		}
		a := advice.Advise(all, w.seats(), w.Listener, w.Boat.Currency)
		if a.Layout == "" {
			a.Sentences = append(a.Sentences, w.whyRefused()...)
		}
		w.advised = &a
	}
	return *w.advised
}

// whyRefused says of each reason which layouts are refused for it.
func (w *Comparison) whyRefused() (out []string) {
	by := map[string][]string{}
	var reasons []string
	for i := range w.Predictions {
		if p := &w.Predictions[i]; p.Refused {
			reason := refusedFor(p)
			if by[reason] == nil {
				reasons = append(reasons, reason)
			}
			by[reason] = append(by[reason], form.Quote(p.Layout.Name))
		}
	}
	for _, reason := range reasons {
		out = append(out, "Refused ("+reason+"): "+advice.Listed(by[reason])+".")
	}
	return out
}

// helped is what would help most, and the layout that it would help.
type helped struct {
	layout string
	all    []advice.Help
}

// helps works out once what would help most, for the layout of today or else the advised one, at the listeners
// of the comparison.
func (w *Comparison) helps() (layout string, all []advice.Help) {
	if w.help == nil {
		w.help = w.helping()
	}
	return w.help.layout, w.help.all
}

func (w *Comparison) helping() *helped {
	h := &helped{layout: w.today(0).Layout}
	if w.Known.At(h.layout) == nil {
		h.layout = w.advise().Layout
	}
	p := w.Known.At(h.layout)
	if p == nil {
		return &helped{}
	}
	all, err := advice.Helps(w.Known, p.Layout, seatsOf(w.Known.File.Listeners))
	if err != nil {
		return h
	}
	for i := range all {
		var at []float64
		for _, l := range w.Boat.Listeners {
			j := slices.IndexFunc(w.Known.File.Listeners, func(k path.Listener) bool { return k.Name == l.Name })
			at = append(at, all[i].DB[j])
		}
		all[i].DB = at
	}
	h.all = all
	return h
}

// adviceDoc is the advice as scripts read it.
func (w *Comparison) adviceDoc() Advice {
	a := w.advise()
	d := Advice{Same: form.List(a.Same), Text: a.Text(), Helps: []Change{}}
	if a.Layout != "" {
		d.Layout = &a.Layout
	}
	layout, helps := w.helps()
	for _, h := range helps {
		c := Change{layout, h.Change, map[string]form.Number{}}
		for j, l := range w.Boat.Listeners {
			c.DB[l.Name] = form.Num(h.DB[j])
		}
		d.Helps = append(d.Helps, c)
	}
	return d
}

// helpsShown is how many changes a text lists.
const helpsShown = 5

// sayHelps shows what would help most.
func (w *Comparison) sayHelps(t *form.Text, u form.Units) {
	layout, all := w.helps()
	if len(all) == 0 {
		return
	}
	t.Line("\nWhat would help most, one change at a time to %s, dB:\n", form.Quote(layout))
	table := form.NewTable("change")
	for _, l := range w.Boat.Listeners {
		table.Column(l.Name, true)
	}
	for i, h := range all {
		if i == helpsShown {
			break
		}
		row := []string{u.Local(h.Change)}
		for _, v := range h.DB {
			row = append(row, fmt.Sprintf("%+.1f", math.Round(10*v)/10+0))
		}
		table.Add(row...)
	}
	t.Table(table)
}
