package live

import (
	"bytes"

	"hushwake/charts/live/sketch"
	"hushwake/path/interview"
	session "hushwake/path/live"
	"hushwake/path/report/form"
)

// interview is the question that is asked, or what one wants to know while there is no file, and the doubt that is left.
func (d *Desk) interview() (html, doubt string) {
	v := d.last.Interview
	switch {
	case v == nil && len(d.last.Text) == 0:
		return start(), ""
	case v == nil || v.Next() == nil && !bytes.Equal(v.Text(), d.last.Text): // the reader goes on alone
		return "", ""
	}
	wrong := ""
	if d.last.Wrong != nil {
		wrong = d.last.Wrong.Error()
	}
	if left, err := v.Doubt(); err == nil {
		doubt = doubtBar(d.shown(left))
	}
	return screenOf(v, wrong), doubt
}

// shown is a doubt with the level and band that stand on the page, where they are of this text: one answer, from the same draws.
func (d *Desk) shown(left interview.Doubt) interview.Doubt {
	if left.Seat == "" || !d.last.Fresh() || d.last.Figures.Comparison == nil {
		return left
	}
	w := d.last.Figures.Comparison
	if len(w.Spread.Layouts) == 0 || w.Predictions[0].Layout.Name != w.Boat.Layouts[0].Name {
		return left
	}
	for j, h := range w.Predictions[0].Listeners {
		if s := w.Spread.Layouts[0].Listeners[j]; h.Listener.Name == left.Seat {
			left.Level, left.PlusMinus = s.Level, (s.High-s.Low)/2
		}
	}
	return left
}

// errors are what is wrong with the text; that there is none yet is no error where one can begin.
func (d *Desk) errors() []session.Slip {
	if len(d.last.Text) == 0 && d.last.Interview == nil {
		return form.List([]session.Slip(nil))
	}
	return form.List(d.last.Errors)
}

// start is the first screen.
func start() string {
	var m markup
	m.open("section", "class", "ask", "data-question", "start", "aria-labelledby", "question")
	m.leaf("h2", "What do you want to know?", "id", "question", "tabindex", "-1")
	m.open("div", "class", "choices")
	m.open("fieldset")
	m.leaf("legend", "What do you want to know?", "class", "unseen")
	for _, g := range interview.Goals {
		m.open("button", "type", "button", "data-op", "begin", "data-to", g.Value, "id", "goal-"+g.Value, "class", "choice")
		m.WriteString(sketch.SVG(g.Picture))
		m.leaf("span", g.Words)
		m.shut("button")
	}
	m.shut("fieldset")
	m.shut("div")
	m.shut("section")
	return m.String()
}
