package live

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile/edit"
	"hushwake/path/boatfile/lines"
)

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
	m.open("form", "data-op", op, "class", "inline")
	m.hidden("at", at)
	id := idOf("part-"+op+"-", at)
	m.leaf("label", words, "for", id)
	m.open("select", "id", id, "name", "to")
	for _, s := range lines.Starts(lines.Found{Bore: v.boreNear(beside), Offers: v.offers(), Open: v.openName()}) {
		m.leaf("option", lines.Spoken(s.Kind)+": "+s.Words, "value", s.Item)
	}
	m.shut("select")
	m.leaf("button", "Add")
	m.shut("form")
}

// offers are the names of the file's quotes as it writes them.
func (v *view) offers() (names []string) {
	for _, c := range v.Controls {
		if t := tokens(c.At); t[0] == "quotes" && len(t) > 1 && !slices.Contains(names, edit.Quote(t[1])) {
			names = append(names, edit.Quote(t[1]))
		}
	}
	return names
}

// openName is a name that no place has that the layout leaves open.
func (v *view) openName() string {
	slots := 1
	for _, c := range v.Controls {
		if strings.HasSuffix(c.At, "/slot/name") {
			slots++
		}
	}
	return fmt.Sprintf("open place %d", slots)
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
