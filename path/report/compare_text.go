package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/room"
	"hushwake/path/study/passage"
	"hushwake/path/study/readings"
	"hushwake/silencer/safety"
)

// Text is the answer for a person: tables, sentences, offers, refusals, cautions.
func (w *Comparison) Text(u form.Units) *form.Text {
	t := &form.Text{}
	t.Say("", "%s", w.Boat.Text)
	t.Blank()
	t.Say("", "Levels at %s, quietest first, with %s; in brackets the band that holds eight cases of ten. "+
		"Back pressure is at rated power, clean, beside the limit that the engine's maker sets.", w.Seat(), w.dutyText(u))
	if n := w.Known.Used(); n > 0 {
		t.Blank()
		count := "1 reading of the file counts"
		if n > 1 {
			count = fmt.Sprintf("%d readings of the file count", n)
		}
		t.Say("", "%s in every figure; --ignore-readings shows the model alone.", count)
	}
	t.Blank()
	t.Table(w.levelTable(u))
	if len(w.Boat.Listeners) > 1 {
		t.Line("\nAt every place, dB(A) with the same band:\n")
		t.Table(w.placesTable())
	}
	t.Blank()
	for _, s := range w.answer() {
		t.Say("", "%s", s)
	}
	w.sayHelps(t, u)
	w.sayMeaning(t, u)
	w.sayEars(t)
	t.Blocks = append(t.Blocks, FloorText(w.Floors(), passage.Beats(w.Predictions)).Blocks...)
	w.sayOffers(t, u)
	w.sayRefusals(t, u)
	w.sayCautions(t, u)
	t.Blank()
	t.Say("", Closing)
	return t
}

// sayMeaning says what the level of the first layout means at each place.
func (w *Comparison) sayMeaning(t *form.Text, u form.Units) {
	first := w.Order(w.Listener)[0]
	for i, p := range w.Predictions {
		if p.Layout.Name == w.advise().Layout {
			first = i
		}
	}
	t.Blank()
	t.Say("", "What %s means to a person:", form.Quote(w.Predictions[first].Layout.Name))
	for j := range w.Boat.Listeners {
		h := &w.Predictions[first].Listeners[j]
		t.Say("  "+h.Listener.Name+": ", "%s", strings.Join(meaning(h, w.Spread.Layouts[first].Listeners[j], u), " "))
	}
	if s := w.passageText(first); s != "" {
		t.Say("  ", "%s", s)
	}
}

// Closing is said under every answer.
const Closing = "Checked against closed forms, finite elements, published tables and worked examples ('hushwake verify'); " +
	"not checked against any boat measured before and after. The engine maker's limit, local codes and licensed " +
	"practice come before this estimate."

// levelTable has the layouts as rows in the order of the level at the chosen listener.
func (w *Comparison) levelTable(u form.Units) *form.Table {
	t := form.NewTable("layout", ">dB(A)", ">back pressure", "verdict", "what is loudest there", ">price")
	for _, i := range w.Order(w.Listener) {
		p := &w.Predictions[i]
		t.Add(p.Layout.Name, w.levelCell(i, w.Listener), w.pressures(i, u), w.verdict(i),
			rules(&p.Listeners[w.Listener]), priceFrom(w.Boat, p.Layout.Price, p.Layout.Unpriced))
	}
	return t
}

// placesTable has a column for each listener.
func (w *Comparison) placesTable() *form.Table {
	t := form.NewTable("layout")
	for _, l := range w.Boat.Listeners {
		head := l.Name
		if l.Limit != nil {
			head += fmt.Sprintf("\n(limit %.0f)", *l.Limit)
		}
		t.Column(head, true)
	}
	for _, i := range w.Order(w.Listener) {
		row := []string{w.Predictions[i].Layout.Name}
		for j := range w.Boat.Listeners {
			row = append(row, w.levelCell(i, j))
		}
		t.Add(row...)
	}
	return t
}

// levelCell is the level of a layout at a listener with its band, and a word where it is over the limit.
func (w *Comparison) levelCell(layout, listener int) string {
	h := w.Spread.Layouts[layout].Listeners[listener]
	text := form.LevelText(h.Level, h.Low, h.High)
	if over, maybe := w.beyond(layout, listener); over {
		text += "\nover limit"
	} else if maybe {
		text += "\nmay be over"
	}
	return text
}

// beyond tells whether a level is over the limit of its place, by the middle of the draws; of a layout to be asked about whether
// all of its span is, or its upper end may be.
func (w *Comparison) beyond(layout, seat int) (over, maybe bool) {
	h, limit, asked := w.Spread.Layouts[layout].Listeners[seat], w.Boat.Listeners[seat].Limit, w.Asked(layout)
	if limit == nil {
		return false, false
	}
	over = h.Level > *limit || asked && h.Low > *limit
	return over, asked && !over && h.High > *limit
}

// pressures are the back pressure of the exhaust that is worst off, and its limit.
func (w *Comparison) pressures(layout int, u form.Units) string {
	e := w.worstExhaust(layout)
	if e < 0 {
		return "-"
	}
	text := u.Show(w.Spread.Layouts[layout].Exhausts[e].Rated, quantity.Pressure)
	if w.Asked(layout) {
		text = "?"
	}
	if l := w.Predictions[layout].Exhausts[e].Limit; l != nil {
		text = outOf(text, u.Show(*l, quantity.Pressure))
	}
	if readings.Unbelieved(&w.Predictions[layout]) {
		text += " as read"
	}
	return text
}

// outOf joins a value with its limit, the unit once where it is the same.
func outOf(value, limit string) string {
	number, unit, ok := strings.Cut(value, " ")
	if ok && strings.HasSuffix(limit, " "+unit) {
		return number + " of " + limit
	}
	return value + " of " + limit
}

// pressureVerdict judges the back pressure by the stated limit.
func (w *Comparison) pressureVerdict(layout int) string {
	e := w.worstExhaust(layout)
	if e < 0 {
		return "-"
	}
	limit := w.Predictions[layout].Exhausts[e].Limit
	switch bp := w.Spread.Layouts[layout].Exhausts[e].Rated; {
	case limit == nil:
		return "no limit to judge by"
	case bp > *limit:
		return "PRESSURE OVER LIMIT"
	case bp > 0.75**limit:
		return "little margin of pressure"
	}
	return pressureKept
}

// boxVerdicts says which engines starve or cook in their boxes.
func boxVerdicts(p *path.Prediction) (words []string) {
	for _, r := range p.Exhausts {
		if r.Box == nil {
			continue
		}
		for _, v := range r.Box.Air.Verdicts {
			switch {
			case v.Harms():
				words = append(words, r.Engine+" "+strings.ToUpper(v.Code))
			case v.Code != "ok":
				words = append(words, "air of "+r.Engine+" "+v.Code)
			}
		}
	}
	return words
}

// boxHarms tells whether an engine starves or cooks in its box.
func boxHarms(p *path.Prediction) bool {
	return slices.ContainsFunc(p.Exhausts, func(r path.ExhaustResult) bool {
		return r.Box != nil && slices.ContainsFunc(r.Box.Air.Verdicts, room.Verdict.Harms)
	})
}

// rules names the route that carries most of the A-weighted energy, with its share.
func rules(h *path.Heard) string {
	if len(h.Routes) == 0 || h.DBA() < 0 {
		return "-"
	}
	r := h.Routes[0]
	share := math.Pow(10, (r.DBA()-h.DBA())/10)
	return fmt.Sprintf("%s (%.0f %%)", routeName(r), 100*share)
}

// routeName is a route in words, without saying the emitter twice.
func routeName(r path.Route) string {
	first, rest, more := strings.Cut(r.Route, " > ")
	if strings.HasSuffix(r.Source, " "+first) && more {
		return r.Source + ": " + rest
	}
	return r.Source + ": " + r.Route
}

// dutyText says at what duty the engines run.
func (w *Comparison) dutyText(u form.Units) string {
	var parts []string
	if len(w.Predictions) > 0 {
		for _, r := range w.Predictions[0].Exhausts {
			d := r.Source.Duty
			parts = append(parts, fmt.Sprintf("%s at %.0f rpm and %s", r.Engine, d.Speed, u.Power(d.Power)))
		}
	}
	if len(parts) == 0 {
		return "no engine running"
	}
	return strings.Join(parts, ", ")
}

func (w *Comparison) sayRefusals(t *form.Text, u form.Units) {
	if all := w.refusals(u); len(all) > 0 {
		t.Line("\nRefused, whatever the level:")
		for _, f := range all {
			f.sayRefusal(t)
		}
	}
}

func (f *sharedFinding) sayRefusal(t *form.Text) {
	where := f.where
	if where == "" {
		where = "every layout"
	}
	t.Say("  - ", "%s: %s %s", where, form.Sentence(f.Text), form.Sentence(f.Action))
}

// sayCautions says each caution once, most dangerous first, with the layouts it concerns.
func (w *Comparison) sayCautions(t *form.Text, u form.Units) {
	all := w.cautions(3, u)
	if len(all) == 0 {
		return
	}
	t.Line("\nCautions:")
	notes := 0
	for _, f := range all {
		if f.Severity == safety.Note {
			notes++
			continue
		}
		f.sayCaution(t)
	}
	if notes > 0 {
		t.Line("  and %d notes: hushwake check lists them with every source", notes)
	}
}

func (f *sharedFinding) sayCaution(t *form.Text) {
	text := form.Sentence(f.Text) + " " + form.Sentence(f.Action)
	if f.where != "" {
		text += " (with " + f.where + ")"
	}
	t.Say(fmt.Sprintf("  %-8s ", f.Severity), "%s", text)
}
