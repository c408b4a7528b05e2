package live

import (
	"strconv"
	"strings"

	"hushwake/charts/picture"
	session "hushwake/path/live"
	"hushwake/path/report/form"
)

// fragments are the pieces of the page by their ids.
func (d *Desk) fragments(slips []session.Slip) map[string]string {
	v := d.view(slips)
	out := map[string]string{"title": v.title(), "bar": v.bar(), "boat": v.boat(), "layouts": v.layouts(), "advice": v.advice(), "result": v.result(),
		"ways": v.ways(), "steps": v.steps(), "readings": v.readings(), "changes": d.changes()}
	for id, html := range v.controls() {
		out[id] = html
	}
	out["gains"], out["speeds"], out["hear"] = d.gainList(v), d.speedCurve(v), d.hear(v)
	out["problems"] = problems(v.unplaced())
	out["interview"], out["doubt"] = d.interview()
	return out
}

// title is the boat in a line.
func (v *view) title() string {
	if v.w == nil {
		return "Exhaust noise"
	}
	return picture.Escape(v.w.Boat.Text)
}

// bar holds what acts on the whole file.
func (v *view) bar() string {
	var m markup
	button := func(op, words string, on bool) {
		m.leaf("button", words, "type", "button", "id", "bar-"+op, "data-op", op, "aria-disabled", when(!on, "true"))
	}
	button("undo", "Undo", v.CanUndo)
	button("redo", "Redo", v.CanRedo)
	m.leaf("button", "Save…", "type", "button", "data-save", "", "id", "bar-save", "aria-haspopup", "dialog", "aria-disabled", when(!v.Dirty, "true"))
	to, words := "imperial", "Feet and inches"
	if v.u != (form.Units{}) {
		to, words = "metric", "Metres"
	}
	m.leaf("button", words, "type", "button", "data-op", "units", "data-to", to)
	return m.String()
}

// result is the level that the reader looks at, with the choice of layout and seat.
func (v *view) result() string {
	var m markup
	class, words := v.mark()
	if v.w != nil {
		m.open("div", "class", "choose")
		m.choice("layout", "Layout", v.layoutNames(), v.Layout)
		m.shut("div")
		v.seats(&m, class)
	}
	m.open("p", "class", "level "+class, "data-level", "")
	if v.i < 0 {
		m.leaf("strong", "no level yet")
	} else {
		l := v.drawn().LevelAt(v.i, v.j)
		m.leaf("span", v.w.Boat.Listeners[v.j].Name+" ", "class", "unseen")
		m.leaf("strong", l.Said())
		if band := bandWords(l); band != "" {
			m.text(" ")
			m.leaf("span", band, "class", "band")
		}
	}
	m.text(" ")
	m.leaf("em", words)
	m.shut("p")
	if s := v.sinceNow(); s != "" {
		m.leaf("p", s, "class", "since "+class)
	}
	return m.String()
}

// seats are the levels at every seat of the chosen layout; each is a button that chooses its seat.
func (v *view) seats(m *markup, class string) {
	m.open("div", "class", "seats "+class, "role", "group", "aria-label", "seats", "data-level", "")
	for j, l := range v.w.Boat.Listeners {
		over := ""
		if v.i >= 0 && v.over(v.i, j) {
			over = "over"
		}
		m.open("button", "type", "button", "data-op", "listener", "data-to", l.Name, "aria-pressed", strconv.FormatBool(j == v.j), "class", over)
		m.text(l.Name)
		if v.i >= 0 {
			m.text(" ")
			m.leaf("b", shortLevel(v.drawn().LevelAt(v.i, j)))
		}
		m.shut("button")
	}
	m.shut("div")
}

// shortLevel is a level without its unit, for a row of them.
func shortLevel(l picture.Level) string { return strings.TrimSuffix(l.Said(), " dB(A)") }

// choice is a labelled select that sends its value as a message.
func (m *markup) choice(op, label string, names []string, chosen string) {
	m.open("label", "for", "choose-"+op)
	m.text(label + " ")
	m.shut("label")
	m.open("select", "id", "choose-"+op, "data-op", op)
	for _, n := range names {
		m.leaf("option", n, "value", n, "selected", when(n == chosen, ""))
	}
	m.shut("select")
}

// bandWords say how far eight boats of ten lie.
func bandWords(l picture.Level) string {
	if l.Unjudged || l.High < 0 {
		return ""
	}
	return "8 of 10 such boats: " + form.Decibel(l.Low) + " to " + form.Decibel(l.High)
}

// sinceNow compares the chosen layout with the one on board now.
func (v *view) sinceNow() string {
	if v.w == nil || v.i < 0 {
		return ""
	}
	n := v.w.Now()
	if n < 0 {
		return ""
	}
	if n == v.i {
		return "This is what is on board now."
	}
	return "Against “" + v.w.Predictions[n].Layout.Name + "” now: " + v.difference(v.i, n, v.j)
}

// advice is one sentence, with the rest behind it.
func (v *view) advice() string {
	var m markup
	class, _ := v.mark()
	if v.w == nil {
		m.leaf("p", "Nothing can be advised before the file can be read.", "class", "say", "data-say", "")
		return m.String()
	}
	if !v.judged() {
		m.leaf("p", "working… The advice comes once all layouts are worked out.", "class", "say")
		return m.String()
	}
	said := v.w.Said()
	if len(said) == 0 {
		said = []string{""}
	}
	m.leaf("p", form.Sentence(said[0]), "class", "say "+class, "data-say", "")
	if rest := said[1:]; len(rest) > 0 {
		m.fold("more-advice", "The advice in full", false, func() { m.leaf("p", strings.Join(rest, " ")) })
	}
	return m.String()
}

// changes are the lines that saving would change.
func (d *Desk) changes() string {
	if d.diffOf != d.last.Stamp {
		return ""
	}
	var m markup
	m.open("pre", "class", "diff", "tabindex", "0", "aria-label", "lines that change")
	for _, l := range shortened(d.diff) {
		m.leaf("span", l.text, "class", l.class)
		m.WriteString("\n")
	}
	m.shut("pre")
	return m.String()
}

// problems are what is wrong and stands beside no control.
func problems(slips []session.Slip) string {
	if len(slips) == 0 {
		return ""
	}
	var m markup
	m.open("ul", "class", "slips", "role", "alert")
	for _, s := range slips {
		m.open("li")
		if s.Line > 0 {
			m.text("Line " + strconv.Itoa(s.Line) + ": ")
		}
		m.text(form.Sentence(s.Message))
		if s.Hint != "" {
			m.text(" " + form.Sentence(s.Hint))
		}
		m.shut("li")
	}
	m.shut("ul")
	return m.String()
}
