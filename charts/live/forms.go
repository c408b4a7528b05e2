package live

import "strings"

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

// lastPart is the place of the last part of a line.
func (v *view) lastPart(line string) (at string) {
	for _, c := range v.Controls {
		if p := place(c); isPart(p) && strings.HasPrefix(p, line+"/") {
			at = p
		}
	}
	return at
}
