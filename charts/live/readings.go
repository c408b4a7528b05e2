package live

import (
	"strconv"

	"hushwake/path/report/form"
)

// readings lists nothing: it asks for a level that was read.
func (v *view) readings() string {
	if v.w == nil {
		return ""
	}
	var m markup
	m.leaf("p", "A phone held at the seat is enough. Every level then moves to what the boat shows.")
	m.open("form", "data-op", "note", "class", "stack")
	now := v.Layout
	if n := v.w.Now(); n >= 0 {
		now = v.w.Predictions[n].Layout.Name
	}
	m.pick("note-layout", "layout", "On board was", v.layoutNames(), now)
	var seats []string
	for _, l := range v.w.Boat.Listeners {
		seats = append(seats, l.Name)
	}
	m.pick("note-listener", "listener", "Read at", seats, v.Listener)
	m.entry("note-level", "to", "Level", "such as 78 dBA", "")
	m.entry("note-within", "plus_minus", "Give or take", "", "2 dB")
	m.leaf("button", "Add the reading")
	m.shut("form")
	if n := v.w.Known.Used(); n > 0 {
		m.leaf("p", "Readings of the file that count: "+strconv.Itoa(n)+".", "class", "note")
	}
	v.remarks(&m)
	return m.String()
}

// remarks are the readings that do not count, or are odd, each with its reason.
func (v *view) remarks(m *markup) {
	all := v.u.LocalAll(v.w.Known.Remarks())
	if len(all) == 0 {
		return
	}
	m.open("ul", "class", "slip", "role", "status")
	for _, s := range all {
		m.leaf("li", form.Sentence(s))
	}
	m.shut("ul")
	if v.w.Known.Changed != nil {
		m.leaf("p", "A later reading of the same seat, layout and speed is held against the first. If the first was wrong, write strike: true beside it in the file: then the later one counts.", "class", "note")
	}
}

// pick is a labelled select of a form.
func (m *markup) pick(id, name, label string, all []string, chosen string) {
	m.open("p")
	m.leaf("label", label, "for", id)
	m.open("select", "id", id, "name", name)
	for _, n := range all {
		m.leaf("option", n, "value", n, "selected", when(n == chosen, ""))
	}
	m.shut("select")
	m.shut("p")
}

// entry is a labelled field of a form.
func (m *markup) entry(id, name, label, hint, value string) {
	m.open("p")
	m.leaf("label", label, "for", id)
	m.open("input", "id", id, "name", name, "required", "", "autocomplete", "off", "value", value, "placeholder", when(hint != "", hint))
	m.shut("p")
}
