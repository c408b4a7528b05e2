package main

import (
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/source/spectrum"
)

type explainDoc struct {
	Layout   string       `json:"layout"`
	Listener string       `json:"listener"`
	LevelDBA number       `json:"level_dba"`
	BandsHz  []number     `json:"bands_hz"`
	Bands    []number     `json:"bands_db"`
	Notes    []string     `json:"notes"`
	Routes   []explainWay `json:"routes"`
	Helps    []helpDoc    `json:"structure"`
}

type explainWay struct {
	Source   string        `json:"source"`
	Route    string        `json:"route"`
	LevelDBA number        `json:"level_dba"`
	Bands    []number      `json:"bands_db"`
	AWeight  []number      `json:"a_weighting_db"` // of what sits in each band
	Steps    []explainStep `json:"steps"`
}

type explainStep struct {
	Name    string   `json:"name"`
	Formula string   `json:"formula"`
	Source  string   `json:"source"`
	Mark    string   `json:"mark"`
	Bands   []number `json:"bands_db"`
	Thin    bool     `json:"thin"`
	Notes   []string `json:"notes"`

	Uncertain []doubtDoc `json:"uncertain"`

	Terms []explainTerm `json:"terms,omitempty"` // of a sound power: they add up to it
}

type explainTerm struct {
	Name    string   `json:"name"`
	Formula string   `json:"formula"`
	Source  string   `json:"source"`
	Mark    string   `json:"mark"`
	Bands   []number `json:"bands_db"`
}

func explainTerms(s path.Step) (all []explainTerm) {
	for _, t := range s.Terms {
		all = append(all, explainTerm{t.Name, t.Formula, t.Source, t.Mark, bandValues(t.Bands)})
	}
	return all
}

// thin is a model that rests on no published figure that was read: a rule of the trade, a judgement,
// or a value from memory.
func thin(s path.Step) bool {
	switch s.Mark {
	case "common practice", "judgement", "from memory":
		return true
	}
	return false
}

type explainOptions struct {
	*common
	layout, listener string
	all              bool
}

func newExplain(c *common) *cobra.Command {
	o := &explainOptions{common: c}
	cmd := &cobra.Command{
		Use:   "explain FILE --layout L --listener N",
		Short: "The chain behind one number, band by band, each step with its formula and source",
		Args:  fileArgument,
		RunE:  func(_ *cobra.Command, args []string) error { return o.run(args[0]) },
	}
	f := cmd.Flags()
	f.StringVar(&o.layout, "layout", "", "the layout, by name or 1-based place; default the first")
	f.StringVar(&o.listener, "listener", "", "the listener; default the first")
	f.BoolVar(&o.all, "all", false, "show the steps of every route, not only of those within 10 dB of the loudest")
	return cmd
}

func (o *explainOptions) run(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	l, err := chooseLayout(b, o.layout)
	if err != nil {
		return err
	}
	j, err := listenerIndex(b, o.listener)
	if err != nil {
		return err
	}
	p, err := path.Predict(b, l)
	if err != nil {
		return badInput("%w", err)
	}
	o.warn(&worked{boat: b, predictions: []path.Prediction{p}})
	h := &p.Listeners[j]
	borne, err := path.StructureAt(b, &p, h)
	if err != nil {
		return badInput("%w", err)
	}
	switch o.format {
	case "json":
		d := newExplainDoc(l.Name, h)
		d.Helps = helpDocs(borne, h.Listener.Name)
		return printJSON(o.out, d)
	case "csv":
		return o.csv(h)
	}
	o.table(l.Name, h)
	for _, s := range borne {
		if o.all || s.Level.DBA() > h.DBA()-structureMatters {
			o.helps(s, h.Listener.Name)
		}
	}
	return nil
}

func newExplainDoc(layout string, h *path.Heard) explainDoc {
	d := explainDoc{Layout: layout, Listener: h.Listener.Name, LevelDBA: level(h.DBA()), BandsHz: bandsHz(),
		Bands: bandLevels(h.Bands), Notes: list(h.Notes), Routes: []explainWay{}}
	for _, r := range h.Routes {
		w := explainWay{Source: r.Source, Route: r.Route, LevelDBA: level(r.DBA()), Bands: bandValues(r.Bands), AWeight: bandValues(r.Weighted().Minus(r.Bands))}
		for _, s := range r.Steps {
			w.Steps = append(w.Steps, explainStep{s.Name, s.Formula, s.Source, s.Mark, bandValues(s.Bands), thin(s), list(s.Notes), doubtDocs(s), explainTerms(s)})
		}
		d.Routes = append(d.Routes, w)
	}
	return d
}

func (o *explainOptions) table(layout string, h *path.Heard) {
	paragraph(o.out, "", fmt.Sprintf("%s at %s: %.1f dB(A)", quote(layout), h.Listener.Name, h.DBA()))
	fmt.Fprintln(o.out)
	paragraph(o.out, "", "Each route begins with a sound power in dB re 1 pW, the sum of the rows above it; the steps below it add up to the level at the ear. "+
		"Routes add as energy, 10 lg of the sum of 10^(L/10); the A row then gives dB(A): each order is weighed at its own frequency, all else by its octave. "+
		"A star marks a thin step, one that rests on common practice, judgement or memory: trust it less.")
	rows := [][]string{}
	for i, r := range h.Routes {
		fmt.Fprintln(o.out)
		paragraph(o.out, fmt.Sprintf("%d. ", i+1), fmt.Sprintf("%s: %s, %.1f dB(A)", r.Source, r.Route, r.DBA()))
		rows = append(rows, bandRow(fmt.Sprintf("route %d", i+1), r.Bands))
		if !o.all && r.DBA() < h.DBA()-10 {
			fmt.Fprintln(o.out, "   more than 10 dB below the sum; --all shows its steps")
			continue
		}
		o.steps(r)
	}
	fmt.Fprintln(o.out)
	sum := bandTable("all routes, dB")
	sum.rows = append(rows, bandRow("energy sum", h.Bands), bandRow("A-weighting of what sits there", h.Weighted().Minus(h.Bands)),
		bandRow("A-weighted", h.Weighted()))
	sum.print(o.out)
	fmt.Fprintf(o.out, "\nEnergy sum of the last row: %.1f dB(A)\n", h.DBA())
	if nr, _ := spectrum.NR(h.Bands); spectrum.NRValid(nr) {
		fmt.Fprintf(o.out, "%.1f dB(C) (IEC 61672-1:2013), NR %.0f (AS 1469:1983)\nspeech interference level %.0f dB (mean of 500 Hz to 2 kHz)\n",
			h.Bands.DBC(), nr, spectrum.PSIL(h.Bands))
		paragraph(o.out, "", fmt.Sprintf("a normal voice is understood at %.2g m, a raised one at %.2g m: %s", spectrum.TalkDistance(h.Bands, spectrum.NormalVoice),
			spectrum.TalkDistance(h.Bands, spectrum.RaisedVoice), spectrum.SpeechSource))
	}
	for _, n := range h.Notes {
		paragraph(o.out, "note: ", n)
	}
}

// steps prints a route's steps as a table and their formulas and sources below.
func (o *explainOptions) steps(r path.Route) {
	t := bandTable("step, dB")
	for i, s := range r.Steps {
		for _, term := range s.Terms {
			t.rows = append(t.rows, bandRow("    "+term.Name, term.Bands))
		}
		t.rows = append(t.rows, bandRow(fmt.Sprintf("%d%s %s", i+1, thinMark(s), s.Name), s.Bands))
	}
	t.rows = append(t.rows, bandRow("= at the ear", r.Bands), bandRow("A-weighting of what sits there", r.Weighted().Minus(r.Bands)))
	t.print(o.out)
	for i, s := range r.Steps {
		paragraph(o.out, fmt.Sprintf("   %d%s ", i+1, thinMark(s)), fmt.Sprintf("%s. %s [%s].%s", s.Formula, s.Source, s.Mark, doubts(s)))
		for _, n := range s.Notes {
			paragraph(o.out, "     - ", sentence(o.local(n)))
		}
	}
}

func thinMark(s path.Step) string {
	if thin(s) {
		return "*"
	}
	return ""
}

// bandTable is a table with a column for each octave band.
func bandTable(head string) *table {
	t := &table{head: []string{head}, right: []bool{false}}
	for _, f := range spectrum.Nominal {
		name := fmt.Sprintf("%g", f)
		if f >= 1000 {
			name = fmt.Sprintf("%gk", f/1000)
		}
		t.head, t.right = append(t.head, name), append(t.right, true)
	}
	return t
}

// bandRow shows two decimals, so that a chain adds up by hand.
func bandRow(name string, b spectrum.Bands) []string { return bandCells(name, b, 2) }

func bandCells(name string, b spectrum.Bands, decimals int) []string {
	row := []string{name}
	for _, v := range b {
		if v <= spectrum.Silent/2 {
			row = append(row, "-")
			continue
		}
		text := strconv.FormatFloat(v, 'f', decimals, 64)
		if strings.Trim(text, "-0.") == "" {
			text = strings.TrimPrefix(text, "-")
		}
		row = append(row, text)
	}
	return row
}

func (o *explainOptions) csv(h *path.Heard) error {
	c := csv.NewWriter(o.out)
	head := []string{"source", "route", "step", "formula", "origin", "mark"}
	for _, f := range spectrum.Nominal {
		head = append(head, fmt.Sprintf("db_%g", f))
	}
	c.Write(head)
	for _, r := range h.Routes {
		for _, s := range r.Steps {
			row := []string{r.Source, r.Route, s.Name, s.Formula, s.Source, s.Mark}
			for _, v := range bandValues(s.Bands) {
				row = append(row, field(v))
			}
			c.Write(row)
		}
	}
	c.Flush()
	return writeError(c.Error())
}
