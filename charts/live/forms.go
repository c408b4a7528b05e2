package live

import (
	"slices"
	"strconv"
	"strings"

	"hushwake/path/report/form"
)

// newPart is a part that can be put into a line: its words and what it begins with, a bore in it standing for that of the
// part beside it. The sizes are common ones (common practice, no source), to be changed at once.
type newPart struct{ kind, words, item string }

var newParts = []newPart{
	{"pipe", "pipe", "{pipe: {bore: BORE, length: 1 m}}"},
	{"elbow", "elbow", "{elbow: {bore: BORE, angle: 90 deg}}"},
	{"silencer", "silencer, as a tape and a look tell", "{silencer: {kind: unknown, length: 600 mm, diameter: 250 mm}}"},
	{"packed", "packed silencer", "{packed: {bore: BORE, chamber_bore: 250 mm, length: 600 mm}}"},
	{"chamber", "expansion chamber", "{chamber: {bore: 300 mm, length: 600 mm}}"},
	{"water_injection", "water injection", "{water_injection: {flow: unknown, height_over_waterline: unknown}}"},
	{"hose", "exhaust hose", "{hose: {bore: BORE, length: 2 m}}"},
	{"lift_chamber", "lift chamber", "{lift_chamber: {bore: 400 mm, height: 480 mm}}"},
	{"bellows", "bellows", "{bellows: {bore: BORE, length: 200 mm}}"},
}

// partForms remove a part of a line and put one before it, or remove a thing of a list.
func (v *view) partForms(m *markup, at string) {
	n := partNumber(at)
	if n == "0" {
		return // it is no thing of a list
	}
	m.open("div", "class", "acts")
	if isPart(at) {
		m.fold(idOf("before-", at), "Put a part before it", false, func() { v.partForm(m, "insert", at, at, "Which") })
	}
	if !strings.HasPrefix(at, "/layouts/") || isPart(at) {
		m.leaf("button", "Remove", "type", "button", "data-op", "remove", "data-at", at, "aria-label", "Remove number "+n)
	}
	m.shut("div")
}

// partNumber is the place of a thing in its list from 1; "0" = it stands in none.
func partNumber(at string) string {
	n, err := strconv.Atoi(at[strings.LastIndex(at, "/")+1:])
	if err != nil {
		return "0"
	}
	return strconv.Itoa(n + 1)
}

// partForm adds one of the kinds to a line: before the part at `at`, or at the end of the line there.
func (v *view) partForm(m *markup, op, at, beside, words string) {
	bore := v.boreNear(beside)
	m.open("form", "data-op", op, "class", "inline")
	m.hidden("at", at)
	id := idOf("part-"+op+"-", at)
	m.leaf("label", words, "for", id)
	m.open("select", "id", id, "name", "to")
	for _, p := range newParts {
		m.leaf("option", p.words, "value", strings.ReplaceAll(p.item, "BORE", bore))
	}
	m.shut("select")
	m.leaf("button", "Add")
	m.shut("form")
}

// boreNear is the bore of a part of a line as written, or that of the nearest part before it.
func (v *view) boreNear(at string) string {
	bore, line, met := "unknown", at[:strings.LastIndex(at, "/")+1], false
	for _, c := range v.Controls {
		if !strings.HasPrefix(c.At, line) {
			continue
		}
		in := strings.HasPrefix(c.At, at+"/")
		if met && !in {
			break
		}
		met = met || in
		if strings.HasSuffix(c.At, "/bore") && strings.Count(c.At, "/") == strings.Count(at, "/")+2 && c.Value != "" {
			bore = c.Value
		}
	}
	return bore
}

// layoutForms copy the layout and add a part to the end of each of its lines.
func (v *view) layoutForms(m *markup) {
	m.open("form", "data-op", "copy-layout", "class", "inline")
	m.hidden("layout", v.Layout)
	m.leaf("label", "Copy this layout as", "for", "copy-as")
	m.open("input", "id", "copy-as", "name", "to", "required", "", "autocomplete", "off")
	m.leaf("button", "Copy")
	m.shut("form")
	for _, line := range v.lines() {
		v.partForm(m, "add", line, v.lastPart(line), "Put at the end of the line of "+lineOf(line))
	}
}

// lines are the places of the lines of the chosen layout, in the order of the file.
func (v *view) lines() (all []string) {
	for _, c := range v.Controls {
		if line, part := lineAt(c.At); part != "" && c.Layout == v.Layout && !slices.Contains(all, line) {
			all = append(all, line)
		}
	}
	return all
}

// lineAt takes a place apart into the line that it is in and the number of the part from 0, "" = it is in none.
func lineAt(at string) (line, part string) {
	line, rest, ok := strings.Cut(at, "/line/")
	if !ok {
		return "", ""
	}
	part, _, _ = strings.Cut(rest, "/")
	return line + "/line", part
}

// lastPart is the place of the last part of a line.
func (v *view) lastPart(line string) (at string) {
	for _, c := range v.Controls {
		if p := place(c); isPart(p) && strings.HasPrefix(p, line+"/") {
			at = p
		}
	}
	return at
}

// lineOf is the engine whose line, or outlet, is at a place.
func lineOf(at string) string {
	t := tokens(at)
	if k := slices.Index(t, "exhausts"); k >= 0 && k+1 < len(t) {
		return t[k+1]
	}
	return "the engine"
}

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
