package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"hushwake/path/study/advice"
)

type compareOptions struct {
	*common
	selection
	report        string
	force         bool
	failOverLimit bool
}

func newCompare(c *common) *cobra.Command {
	o := &compareOptions{common: c}
	cmd := &cobra.Command{
		Use:   "compare FILE",
		Short: "Every layout at every listener, back pressure against its limit, ranking and trade-off",
		Args:  fileArgument,
		RunE:  func(_ *cobra.Command, args []string) error { return o.run(args[0]) },
	}
	f := cmd.Flags()
	f.StringArrayVar(&o.layouts, "layout", nil, "only this layout (may be repeated)")
	f.StringArrayVar(&o.listeners, "listener", nil, "only this listener (may be repeated); the first one orders the table")
	f.StringVar(&o.report, "report", "", "also write the report page to this HTML file")
	f.BoolVar(&o.force, "force", false, "replace an existing report")
	f.BoolVar(&o.failOverLimit, "fail-over-limit", false, "exit with status 1 when a limit of the file is exceeded")
	drawFlags(f, &o.draws)
	return cmd
}

func (o *compareOptions) run(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	if len(o.listeners) > 0 {
		o.listener = o.listeners[0]
	}
	w, err := work(b, o.selection)
	if err != nil {
		return err
	}
	o.warn(w)
	if err := o.print(w); err != nil {
		return err
	}
	if o.report != "" {
		if err := o.writeReport(w); err != nil {
			return err
		}
	}
	if o.failOverLimit && overLimit(w) {
		return errOverLimit
	}
	return nil
}

func (o *compareOptions) print(w *worked) error {
	switch o.format {
	case "json":
		return printJSON(o.out, newCompareDoc(w))
	case "csv":
		return printCompareCSV(o.out, w)
	}
	o.printCompare(w)
	return nil
}

// warn prints the warnings of the file and of all layouts on stderr.
func (c *common) warn(w *worked) {
	for _, t := range w.told(c) {
		c.remark("warning: %s", t)
	}
}

// overLimit says whether a stated limit is exceeded by the central value of any layout.
func overLimit(w *worked) bool {
	for i, p := range w.predictions {
		for j, r := range p.Exhausts {
			if r.Limit != nil && w.spread.Layouts[i].Exhausts[j].Rated > *r.Limit {
				return true
			}
		}
		for j, h := range p.Listeners {
			if h.Listener.Limit != nil && w.spread.Layouts[i].Listeners[j].Level > *h.Listener.Limit {
				return true
			}
		}
	}
	return false
}

// order gives the layouts by level at the listener that orders tables, refused ones last.
func (w *worked) order(listener int) []int {
	place := map[string]int{}
	for i, p := range w.predictions {
		place[p.Layout.Name] = i
	}
	var out []int
	for _, r := range advice.Rank(w.predictions, w.spread)[listener].Rows {
		out = append(out, place[r.Layout])
	}
	return out
}

func fileArgument(cmd *cobra.Command, args []string) error {
	if len(args) != 1 {
		return badInput("%s takes one boat file, got %d arguments\nhint: hushwake %s", cmd.Name(), len(args), cmd.Use)
	}
	return nil
}

func newCompareDoc(w *worked) compareDoc {
	d := compareDoc{
		Version: version, Boat: w.boat.Text, Units: "SI, as named in each key", Seed: w.spread.Draws.Seed, Draws: w.spread.Draws.N,
		BandsHz: bandsHz(), Layouts: layoutDocs(w.predictions, w.spread), Ranking: map[string][]rankDoc{},
		Tradeoff: []tradeoffDoc{}, Assumptions: w.assumptions(), Warnings: list(w.warnings()),
	}
	for j, l := range w.boat.Listeners {
		for _, i := range w.order(j) {
			s := w.spread.Layouts[i].Listeners[j]
			d.Ranking[l.Name] = append(d.Ranking[l.Name], rankDoc{w.predictions[i].Layout.Name, level(s.Level), num(s.Quietest)})
		}
		d.Tradeoff = append(d.Tradeoff, w.tradeoff(j)...)
	}
	return d
}

// tradeoff is each layout's level at a listener beside its highest rated back pressure.
func (w *worked) tradeoff(listener int) []tradeoffDoc {
	out := []tradeoffDoc{}
	for _, t := range w.fronts() {
		if t.Listener == w.boat.Listeners[listener].Name {
			out = append(out, tradeoffDoc{t.Layout, t.Listener, level(t.Level), numOr(t.RatedPressure, 1e-3), t.OnFront})
		}
	}
	return out
}

// worstPressure is the rated back pressure of the exhaust nearest to (or furthest over) its limit, Pa.
func (w *worked) worstPressure(layout int) *float64 {
	e := w.worstExhaust(layout)
	if e < 0 {
		return nil
	}
	v := w.spread.Layouts[layout].Exhausts[e].Rated
	return &v
}

func (w *worked) worstExhaust(layout int) int {
	best, share := -1, -1.0
	for j, r := range w.predictions[layout].Exhausts {
		s := w.spread.Layouts[layout].Exhausts[j].Rated / 1e9 // without a limit the highest counts
		if r.Limit != nil && *r.Limit > 0 {
			s = w.spread.Layouts[layout].Exhausts[j].Rated / *r.Limit
		}
		if s > share {
			best, share = j, s
		}
	}
	return best
}

// assumptions are the values the program filled in for the file and for each layout, each once.
func (w *worked) assumptions() []assumptionDoc {
	out := []assumptionDoc{}
	seen := map[string]bool{}
	add := func(field, value, source string, pm float64) {
		key := fmt.Sprint(field, value, source)
		if !seen[key] {
			seen[key] = true
			out = append(out, assumptionDoc{field, value, source, num(pm)})
		}
	}
	for _, a := range w.boat.Assumptions {
		add(a.Field, a.Value, a.Source, a.PlusMinusDB)
	}
	for _, p := range w.predictions {
		for _, a := range p.Assumptions {
			add(a.Field, a.Value, a.Source, a.PlusMinusDB)
		}
	}
	return out
}
