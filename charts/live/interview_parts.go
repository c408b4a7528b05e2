package live

import (
	"strconv"

	"hushwake/charts/live/sketch"
	"hushwake/path/interview"
)

// parts are a list that is tapped together: the row as it stands, each part with its few figures, and what can be added. All is
// one form, so that a figure that was typed isn't lost when a part is tapped.
func (m *markup) parts(v *interview.Interview, q *interview.Question, wrong slip) {
	m.form(q, "parts")
	m.leaf("button", "", "name", "to", "value", "done", "class", "unseen", "tabindex", "-1", "aria-hidden", "true") // what the enter key presses
	m.open("ol", "class", "row")
	rows := v.Typed(q)
	for i, row := range rows {
		m.part(q, i, row, wrong)
	}
	m.shut("ol")
	m.open("fieldset", "class", "tiles")
	m.leaf("legend", "Tap what comes next")
	for _, p := range q.Addable(rows) {
		m.open("button", "name", "to", "value", "+ "+p.Kind, "id", "add-"+p.Kind, "class", "choice")
		m.WriteString(sketch.SVG(p.Picture))
		m.leaf("span", p.Words)
		m.shut("button")
	}
	m.shut("fieldset")
	m.leaf("button", "That is all", "name", "to", "value", "done", "id", "done", "class", "main")
	m.shut("form")
}

// part is one part of the row.
func (m *markup) part(q *interview.Question, i int, row []string, wrong slip) {
	for _, p := range q.Parts {
		if p.Kind != row[0] {
			continue
		}
		n := strconv.Itoa(i + 1)
		m.open("li")
		m.hidden("to", "= "+p.Kind)
		m.open("fieldset", "class", "part")
		m.leaf("legend", n+" "+p.Words)
		m.WriteString(sketch.SVG(p.Picture))
		for k, f := range p.Fields {
			m.field(f, "part-"+n+"-"+strconv.Itoa(k), row[k+1], wrong.in(row[k+1], i == 0 && k == 0), false)
		}
		m.open("p", "class", "move")
		if i > 0 {
			m.leaf("button", "Move up", "name", "to", "value", "^ "+n, "id", "earlier-"+n, "aria-label", "move part "+n+", "+p.Words+", up")
		}
		m.leaf("button", "Take out", "name", "to", "value", "- "+n, "id", "out-"+n, "aria-label", "take out part "+n+", "+p.Words)
		m.shut("p")
		m.shut("fieldset")
		m.shut("li")
	}
}
