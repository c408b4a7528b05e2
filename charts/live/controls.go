package live

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"hushwake/path/boatfile/controls"
	"hushwake/path/boatfile/edit"
	session "hushwake/path/live"
	"hushwake/path/report/form"
)

// group is a part of the controls: the places in the file that it takes.
type group struct {
	id, title string
	takes     func(tokens []string) bool
}

// groups are asked in this order; the last takes what is left.
var groups = []group{
	{"engine", "Engine and speed", func(t []string) bool { return t[0] == "engines" }},
	{"line", "The line, part by part", func(t []string) bool {
		return slices.Contains(t, "line") || t[0] == "layouts" && (slices.Contains(t, "replace") || slices.Contains(t, "insert") || slices.Contains(t, "remove"))
	}},
	{"outlet", "Outlet", func(t []string) bool { return slices.Contains(t, "outlet") || t[0] == "edges" }},
	{"walls", "Rooms, walls and doors", func(t []string) bool {
		return t[0] == "partitions" || t[0] == "spaces" || t[0] == "hull" || t[0] == "layouts" && (slices.Contains(t, "partitions") || slices.Contains(t, "spaces"))
	}},
	{"box", "Box round the engine", func(t []string) bool { return slices.Contains(t, "enclosures") }},
	{"seats", "Seats", func(t []string) bool { return t[0] == "listeners" }},
	{"layout", "This layout: name, price, promises", func(t []string) bool { return t[0] == "layouts" }},
	{"readings", "Readings", func(t []string) bool { return t[0] == "readings" }},
	{"rest", "Everything else", func([]string) bool { return true }},
}

// controls are the fields of the chosen layout and of what all layouts share, by group.
func (v *view) controls() map[string]string {
	of := map[string][]controls.Control{}
	for _, c := range v.Controls {
		if c.Layout != "" && c.Layout != v.Layout {
			continue
		}
		at := tokens(c.At)
		for _, g := range groups {
			if g.takes(at) {
				of[g.id] = append(of[g.id], c)
				break
			}
		}
	}
	out := map[string]string{}
	for _, g := range groups {
		out["controls-"+g.id] = v.group(g, of[g.id])
	}
	return out
}

// group is one part of the controls; the first ones are open.
func (v *view) group(g group, all []controls.Control) string {
	if len(all) == 0 && g.id != "line" {
		return ""
	}
	var m markup
	m.fold("group-"+g.id, g.title, g.id == "engine" || g.id == "line" || v.wrong(all), func() {
		if g.id == "line" {
			v.layoutForms(&m)
		}
		things, lines := byPlace(all), v.lines()
		for _, of := range things {
			if line, part := lineAt(of[0].At); part == "0" && len(lines) > 1 {
				m.leaf("h3", "The line of "+lineOf(line))
			}
			v.thing(&m, g.id, of, len(things) > 1)
		}
	})
	return m.String()
}

// byPlace gathers the controls of each thing, in the order of the first of them.
func byPlace(all []controls.Control) (out [][]controls.Control) {
	at := map[string]int{}
	for _, c := range all {
		p := place(c)
		k, seen := at[p]
		if !seen {
			k = len(out)
			at[p], out = k, append(out, nil)
		}
		out[k] = append(out[k], c)
	}
	return out
}

// wrong tells whether a slip stands beside one of these.
func (v *view) wrong(all []controls.Control) bool {
	return slices.ContainsFunc(all, func(c controls.Control) bool { return len(v.slipsAt(c.At)) > 0 })
}

// thing is one of a group: open where it is alone or wrong, else a line that says what it is.
func (v *view) thing(m *markup, group string, all []controls.Control, folded bool) {
	at := place(all[0])
	if !folded {
		m.open("fieldset", "class", "part")
		m.leaf("legend", partName(all[0], at))
		v.part(m, group, at, all)
		m.shut("fieldset")
		return
	}
	m.open("details", "id", idOf("thing-"+group+"-", at), "class", "part", "open", when(v.wrong(all), ""))
	m.open("summary")
	m.leaf("b", partName(all[0], at))
	m.leaf("span", " "+gist(all), "class", "gist")
	m.shut("summary")
	v.part(m, group, at, all)
	m.shut("details")
}

// gist are the first figures of a thing.
func gist(all []controls.Control) string {
	var figures []string
	for _, c := range all {
		if len(figures) < 3 && strings.IndexFunc(c.Value, unicode.IsDigit) == 0 && !strings.HasPrefix(c.Label, "at ") {
			figures = append(figures, c.Value)
		}
	}
	return strings.Join(figures, ", ")
}

// part are the controls of one thing: those that are stated or dear not to know, and on demand the rest.
func (v *view) part(m *markup, group, at string, all []controls.Control) {
	left := 0
	for _, c := range all {
		if c.Value != "" || c.Price != nil && *c.Price >= dear || len(v.slipsAt(c.At)) > 0 || v.opened[at] {
			v.control(m, c)
		} else {
			left++
		}
	}
	more := func(words, expanded string) {
		m.leaf("button", words, "type", "button", "class", "link", "id", idOf("more-"+group+"-", at), "data-op", "more", "data-at", at, "aria-expanded", expanded)
	}
	switch {
	case left > 0:
		more("Show "+strconv.Itoa(left)+" more details", "false")
	case v.opened[at]:
		more("Only what is said", "true")
	}
	v.partForms(m, at)
}

// dear is what not knowing a value costs so much that its field is always shown, dB (judgement).
const dear = 0.5

// partName is the heading of a thing: a part of a line with its number, else what it is called.
func partName(c controls.Control, at string) string {
	t := tokens(c.At)
	switch {
	case isPart(at):
		n := partNumber(at)
		kind, name, _ := strings.Cut(c.Part, " ")
		if kind = strings.ReplaceAll(kind, "_", " "); name == n {
			name = ""
		}
		if strings.HasPrefix(name, kind) { // a lift chamber called "lift chamber 60 L"
			kind = ""
		}
		return n + " · " + strings.TrimSpace(kind+" "+name)
	case slices.Contains(t, "outlet"):
		return "of " + lineOf(c.At)
	}
	if name := strings.TrimSpace(strings.TrimPrefix(c.Group, t[0])); name != "" {
		return name
	}
	return c.Group
}

// control is one field with its unit as written, what stands in for it, "unknown", and what is wrong with it.
func (v *view) control(m *markup, c controls.Control) {
	id, slips := idOf("c-", c.At), v.slipsAt(c.At)
	if len(slips) > 0 {
		v.taken[c.At] = true
	}
	words := takenWords(c)
	said := when(len(slips) > 0 || words != "", id+"-s")
	m.open("div", "class", "control")
	m.leaf("label", controlLabel(c), "for", id)
	v.field(m, c, id, said, len(slips) > 0)
	if !c.Required {
		m.open("button", "type", "button", "class", "unknown", "data-op", "unknown", "data-at", c.At, "aria-pressed", strconv.FormatBool(c.Unknown), "aria-label", controlLabel(c)+" is unknown", "aria-disabled", when(c.Unknown, "true"))
		m.text("unknown")
		m.shut("button")
	}
	if said != absent {
		m.open("p", "id", id+"-s", "class", "said")
		for _, text := range slipWords(c.At, slips) {
			m.leaf("span", text, "class", "slip", "role", "alert")
			m.text(" ")
		}
		m.text(words)
		m.shut("p")
	}
	m.shut("div")
}

// slipWords say what is wrong with a value, each thing once: where it stands is left out, as the field shows it.
func slipWords(at string, slips []session.Slip) []string {
	key := ""
	for _, t := range tokens(at) {
		if _, err := strconv.Atoi(t); err != nil {
			key = t
		}
	}
	return form.Unique(form.Each(slips, func(s session.Slip) string {
		if _, rest, ok := strings.Cut(s.Message, key+": "); ok {
			s.Message = rest
		}
		return strings.TrimSpace(form.Sentence(s.Message) + " " + form.Sentence(s.Hint))
	}))
}

// controlLabel is the key in words, with what encloses it where that is no part of a line.
func controlLabel(c controls.Control) string {
	if c.Part != "" && !isPart(place(c)) {
		return c.Part + ": " + c.Label
	}
	return c.Label
}

// field is the input itself: a select where only some words fit.
func (v *view) field(m *markup, c controls.Control, id, said string, bad bool) {
	value, invalid := plainValue(c), when(bad, "true")
	if len(c.Choices) == 0 {
		m.open("input", "id", id, "data-at", c.At, "value", value, "placeholder", example(c), "autocomplete", "off", "spellcheck", "false", "autocapitalize", "off",
			"aria-describedby", said, "aria-invalid", invalid)
		return
	}
	m.open("select", "id", id, "data-at", c.At, "aria-describedby", said, "aria-invalid", invalid)
	if !slices.Contains(c.Choices, value) {
		m.leaf("option", value, "value", value, "selected", "")
	}
	for _, w := range c.Choices {
		m.leaf("option", w, "value", w, "selected", when(w == value, ""))
	}
	m.shut("select")
}

// plainValue is a value as people write it: quotes off, unless it is a list or a mapping.
func plainValue(c controls.Control) string {
	if strings.HasPrefix(c.Value, `"`) || strings.HasPrefix(c.Value, "'") {
		return edit.Plain(c.Value)
	}
	return c.Value
}

func example(c controls.Control) string {
	if c.Example == "" {
		return absent
	}
	return "such as " + c.Example
}

// takenWords say what stands in where a value is not known, and what that costs.
func takenWords(c controls.Control) string {
	switch {
	case !c.Unknown:
		return ""
	case c.Taken == "" && c.Price == nil && (c.Example != "" || len(c.Choices) > 0):
		return ""
	case c.Taken == "" && c.Price == nil:
		return c.Fits
	}
	s := "not stated"
	if c.Taken != "" {
		s = "taken: " + c.Taken
	}
	if c.Price != nil {
		s += ", which leaves ±" + strconv.FormatFloat(*c.Price, 'f', 1, 64) + " dB"
	}
	return s
}
