package live

import (
	"encoding/json"
	"fmt"
	"strings"

	"hushwake/path/boatfile/edit"
	"hushwake/path/boatfile/quantity"
	session "hushwake/path/live"
	"hushwake/path/report/form"
	"hushwake/source/said"
)

// message is what a page sends: that of a session, with the page's name.
type message struct {
	session.Message
	Page string `json:"page"`
}

// answer is what a page gets.
type answer struct {
	Stamp     string            `json:"stamp"`
	Form      string            `json:"form"`
	Left      int               `json:"left"`
	Errors    []session.Slip    `json:"errors"`
	Figures   *figures          `json:"figures"`
	Fragments map[string]string `json:"fragments"`
	Dirty     bool              `json:"dirty"`
	CanUndo   bool              `json:"can_undo"`
	CanRedo   bool              `json:"can_redo"`
	Text      string            `json:"text,omitempty"` // of the message text
}

// figures are the levels with the stamp of the text that they belong to.
type figures struct {
	Stamp   string          `json:"stamp"`
	Form    string          `json:"form"`
	Layouts []layoutFigures `json:"layouts"`
}

type layoutFigures struct {
	Name      string         `json:"name"`
	Listeners []levelFigures `json:"listeners"`
}

type levelFigures struct {
	Name  string      `json:"name"`
	Level form.Number `json:"level_dba"`
	Low   form.Number `json:"low_dba"`
	High  form.Number `json:"high_dba"`
}

// Handle does what a message asks and answers it. A message that makes no sense, and a fault of the program, are answered with an
// error; nothing is changed then.
func (d *Desk) Handle(raw []byte) (reply []byte) {
	d.mu.Lock()
	defer d.mu.Unlock()
	defer func() {
		if fault := recover(); fault != nil {
			reply = d.refused(fmt.Sprintf("the program failed on this: %v", fault), "undo the last change, or leave it out; what stood before is kept")
		}
	}()
	var m message
	if err := json.Unmarshal(raw, &m); err != nil {
		return d.refused("a message was not understood", "load the page again")
	}
	var extra []session.Slip
	switch m.Op {
	case "diff":
		d.last = d.session.Do(m.Message)
		d.diff, d.diffOf = d.last.Diff, d.last.Stamp
	case "units":
		d.units = unitsNamed(m.To)
	case "speeds":
		extra = d.workSpeeds()
	case "gains":
		d.workGains()
	case "sounds":
		extra = d.workSounds()
	case "more":
		d.opened[m.At] = !d.opened[m.At]
	case "against":
		d.diff, d.diffOf = edit.Diff([]byte(m.To), d.last.Text), d.last.Stamp
	case "text":
		a := d.answer(m.Page, nil)
		a.Text = string(d.last.Text)
		return encoded(a)
	default:
		d.last = d.session.Do(asYAML(m.Message))
		if m.Op == "copy-layout" && len(d.last.Errors) == 0 { // a copy is there to be changed
			d.last = d.session.Do(session.Message{Op: "layout", To: m.To})
		}
	}
	return encoded(d.answer(m.Page, extra))
}

func unitsNamed(name string) form.Units {
	if name == "imperial" {
		return form.Units{System: quantity.Imperial}
	}
	return form.Units{}
}

// asYAML makes one YAML value of what somebody typed into a field.
func asYAML(m session.Message) session.Message {
	if m.Op == "set" && !strings.ContainsAny(first(m.To), "\"'[{&*|>!") {
		m.To = edit.Quote(m.To)
	}
	return m
}

func first(s string) string { return s[:min(len(s), 1)] }

// refused answers a message that was not done.
func (d *Desk) refused(text, hint string) []byte {
	a := d.state(form.List([]session.Slip{{Message: text, Hint: hint}}))
	a.Fragments["problems"], d.sent = problems(a.Errors), nil
	return encoded(a)
}

func encoded(a answer) []byte {
	raw, err := json.Marshal(a)
	if err != nil {
		return []byte(`{"errors":[{"message":"an answer could not be written"}],"fragments":{}}`)
	}
	return []byte(said.Plain(string(raw)))
}

// state is an answer without its fragments.
func (d *Desk) state(slips []session.Slip) answer {
	l := &d.last
	a := answer{Stamp: l.Stamp, Left: l.Left, Errors: slips, Figures: figuresOf(l.Figures), Fragments: map[string]string{}, Dirty: l.Dirty, CanUndo: l.CanUndo, CanRedo: l.CanRedo}
	if l.Fresh() {
		a.Form = l.Figures.Form
	}
	return a
}

// answer draws the state, what has changed since the last answer to that page.
func (d *Desk) answer(page string, extra []session.Slip) answer {
	a := d.state(append(d.errors(), extra...))
	if page == "" || page != d.page {
		d.page, d.sent = page, map[string]string{}
	}
	if d.sent == nil {
		d.sent = map[string]string{}
	}
	for id, html := range d.fragments(a.Errors) {
		if was, ok := d.sent[id]; !ok || was != html {
			a.Fragments[id], d.sent[id] = html, html
		}
	}
	return a
}

func figuresOf(f *session.Figures) *figures {
	if f == nil || f.Comparison == nil {
		return nil
	}
	out := &figures{Stamp: f.Stamp, Form: f.Form}
	for i, p := range f.Comparison.Predictions {
		l := layoutFigures{Name: p.Layout.Name}
		for j, s := range f.Comparison.Spread.Layouts[i].Listeners {
			l.Listeners = append(l.Listeners, levelFigures{p.Listeners[j].Listener.Name, form.Level(s.Level), form.Level(s.Low), form.Level(s.High)})
		}
		out.Layouts = append(out.Layouts, l)
	}
	return out
}
