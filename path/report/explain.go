package report

import (
	"fmt"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/scene"
	"hushwake/path/study/readings"
	"hushwake/source"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Explain is the chain behind one number.
type Explain struct {
	Layout   string         `json:"layout"`
	Listener string         `json:"listener"`
	LevelDBA form.Number    `json:"level_dba"`
	BandsHz  []form.Number  `json:"bands_hz"`
	Bands    []form.Number  `json:"bands_db"`
	Notes    []string       `json:"notes"`
	Routes   []ExplainRoute `json:"routes"`
	Helps    []parts.Help   `json:"structure"`
}

// ExplainRoute is a way from a source to the listener, step by step.
type ExplainRoute struct {
	Source   string        `json:"source"`
	Route    string        `json:"route"`
	LevelDBA form.Number   `json:"level_dba"`
	Bands    []form.Number `json:"bands_db"`
	AWeight  []form.Number `json:"a_weighting_db"` // of what sits in each band
	Steps    []ExplainStep `json:"steps"`
}

// ExplainStep is a level (the first of a route) or a gain.
type ExplainStep struct {
	Name string `json:"name"`
	published.Cited
	Bands []form.Number `json:"bands_db"`
	Thin  bool          `json:"thin"`
	Notes []string      `json:"notes"`

	Uncertain []Doubt `json:"uncertain"`

	Terms []ExplainTerm `json:"terms,omitempty"` // of a sound power: they add up to it
}

// ExplainTerm is a part of a sound power.
type ExplainTerm struct {
	Name string `json:"name"`
	published.Cited
	Bands []form.Number `json:"bands_db"`
}

// newExplainStep is a step with its doubts and the terms it is made of.
func newExplainStep(s path.Step) ExplainStep {
	return ExplainStep{s.Name, s.Cited, form.BandValues(s.Bands), thin(s), form.List(s.Notes), doubtsOf(s),
		form.Each(s.Terms, func(t source.Term) ExplainTerm {
			return ExplainTerm{t.Name, t.Cited, form.BandValues(t.Bands)}
		})}
}

// thin is a model that rests on no published figure that was read: a rule of the trade, a judgement,
// or a value from memory.
func thin(s path.Step) bool {
	return s.Mark == "common practice" || s.Mark == "judgement" || s.Mark == "from memory"
}

// Explained is a listener of a layout with the routes that reach it.
type Explained struct {
	prediction path.Prediction
	heard      *path.Heard
	borne      []scene.StructureBorne
	boat       *path.Boat
	all        bool // the steps of every route are shown
}

// NewExplained works the routes of a layout to a listener out; all shows the steps of those that hardly matter too.
func NewExplained(k *readings.Known, l *path.Layout, listener int, all bool) (*Explained, error) {
	e := &Explained{boat: k.Boat, all: all, prediction: *k.At(l.Name)}
	e.heard = &e.prediction.Listeners[listener]
	var err error
	e.borne, err = scene.StructureAt(k.Boat, &e.prediction, e.heard)
	return e, err
}

// Warnings are those of the layout.
func (e *Explained) Warnings(u form.Units) []string {
	return (&Comparison{Boat: e.boat, Predictions: []path.Prediction{e.prediction}}).Warnings(u)
}

// Document is every step of every route by octave band.
func (e *Explained) Document() any {
	h := e.heard
	d := Explain{Layout: e.prediction.Layout.Name, Listener: h.Listener.Name, LevelDBA: form.Level(h.DBA()), BandsHz: form.BandsHz(),
		Bands: form.BandLevels(h.Bands), Notes: form.List(h.Notes), Routes: []ExplainRoute{}, Helps: parts.HelpsOf(e.borne, h.Listener.Name)}
	for _, r := range h.Routes {
		d.Routes = append(d.Routes, ExplainRoute{Source: r.Source, Route: r.Route, LevelDBA: form.Level(r.DBA()), Bands: form.BandValues(r.Bands),
			AWeight: form.BandValues(r.Weighted().Minus(r.Bands)), Steps: form.Each(r.Steps, newExplainStep)})
	}
	return d
}

// Sheet has a row for each step.
func (e *Explained) Sheet() form.Sheet {
	head := []string{"source", "route", "step", "formula", "origin", "mark"}
	for _, f := range spectrum.Nominal {
		head = append(head, fmt.Sprintf("db_%g", f))
	}
	out := form.Sheet{head}
	for _, r := range e.heard.Routes {
		for _, s := range r.Steps {
			row := []string{r.Source, r.Route, s.Name, s.Formula, s.Source, s.Mark}
			out.Add(append(row, form.Each(form.BandValues(s.Bands), form.Field)...)...)
		}
	}
	return out
}

// Text shows the routes, their steps, their sum, and what would help against mounts and hull.
func (e *Explained) Text(u form.Units) *form.Text {
	t, h := &form.Text{}, e.heard
	t.Say("", "%s at %s: %.1f dB(A)%s", form.Quote(e.prediction.Layout.Name), h.Listener.Name, spectrum.Tenth(h.DBA()), e.unjudged())
	t.Blank()
	t.Say("", explainHow)
	sum := form.BandTable("all routes, dB")
	for i, r := range h.Routes {
		t.Blank()
		t.Say(fmt.Sprintf("%d. ", i+1), "%s: %s, %.1f dB(A)", r.Source, r.Route, spectrum.Tenth(r.DBA()))
		sum.Add(bandRow(fmt.Sprintf("route %d", i+1), r.Bands)...)
		if !e.all && r.DBA() < h.DBA()-10 {
			t.Line("   more than 10 dB below the sum; --all shows its steps")
			continue
		}
		saySteps(t, r, u)
	}
	saySum(t, sum, h, u)
	for _, s := range e.borne {
		if e.all || s.Level.DBA() > h.DBA()-parts.StructureMatters {
			parts.SayHelps(t, s, h.Listener.Name, u)
		}
	}
	return t
}

// unjudged says of a level that can't be judged why it is shown all the same.
func (e *Explained) unjudged() string {
	switch p := &e.prediction; {
	case p.Refused:
		return ", but the layout is refused"
	case len(p.Questions) > 0:
		return " by one reading of its sheets: ask first, before it is judged"
	}
	return ""
}

const explainHow = "Each route begins with a sound power in dB re 1 pW, the sum of the rows above it; the steps below it add up to the level at the ear. " +
	"Routes add as energy, 10 lg of the sum of 10^(L/10); the A row then gives dB(A): each order is weighed at its own frequency, all else by its octave. " +
	"A star marks a thin step, one that rests on common practice, judgement or memory: trust it less."

// saySum adds the energy sum of all routes and what follows from it.
func saySum(t *form.Text, sum *form.Table, h *path.Heard, u form.Units) {
	sum.Add(bandRow("energy sum", h.Bands)...)
	sum.Add(bandRow("A-weighting of what sits there", h.Weighted().Minus(h.Bands))...)
	sum.Add(bandRow("A-weighted", h.Weighted())...)
	t.Blank()
	t.Table(sum)
	t.Line("\nEnergy sum of the last row: %.1f dB(A)", spectrum.Tenth(h.DBA()))
	if nr, _ := spectrum.NR(h.Bands); spectrum.NRValid(nr) {
		t.Line("%.1f dB(C) (IEC 61672-1:2013), NR %.0f (AS 1469:1983)\nspeech interference level %.0f dB (mean of 500 Hz to 2 kHz)",
			h.Bands.DBC(), nr, spectrum.PSIL(h.Bands))
		t.Say("", "a normal voice is understood at %s, a raised one at %s: %s", u.Way(spectrum.TalkDistance(h.Bands, spectrum.NormalVoice)),
			u.Way(spectrum.TalkDistance(h.Bands, spectrum.RaisedVoice)), spectrum.SpeechSource)
	}
	for _, n := range h.Notes {
		t.Say("note: ", "%s", u.Local(n))
	}
}

// saySteps shows a route's steps as a table and their formulas and sources below.
func saySteps(t *form.Text, r path.Route, u form.Units) {
	steps := form.BandTable("step, dB")
	for i, s := range r.Steps {
		for _, term := range s.Terms {
			steps.Add(bandRow("    "+term.Name, term.Bands)...)
		}
		steps.Add(bandRow(fmt.Sprintf("%d%s %s", i+1, thinMark(s), u.Local(s.Name)), s.Bands)...)
	}
	steps.Add(bandRow("= at the ear", r.Bands)...)
	steps.Add(bandRow("A-weighting of what sits there", r.Weighted().Minus(r.Bands))...)
	t.Table(steps)
	for i, s := range r.Steps {
		t.Say(fmt.Sprintf("   %d%s ", i+1, thinMark(s)), "%s. %s [%s].%s", s.Formula, s.Source, s.Mark, u.Local(doubts(s)))
		for _, n := range s.Notes {
			t.Say("     - ", "%s", form.Sentence(u.Local(n)))
		}
	}
}

func thinMark(s path.Step) string {
	if thin(s) {
		return "*"
	}
	return ""
}

// bandRow shows two decimals, so that a chain adds up by hand.
func bandRow(name string, b spectrum.Bands) []string { return form.BandCells(name, b, 2) }
