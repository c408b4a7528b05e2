package lines

import (
	"fmt"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/panel"
	"hushwake/path/structure"
	"hushwake/silencer/loss"
	"hushwake/source/spectrum"
)

// HelpTable is one table of what a boat file may hold.
type HelpTable struct {
	Topic, Text string
	Head        []string
	Right       []bool // columns of figures
	Rows        [][]string
}

// HelpTopics names the tables.
var HelpTopics = []string{"materials", "elements", "linings", "hulls", "mounts", "units"}

// Help gives a table; ok is false for an unknown topic.
func Help(topic string) (t HelpTable, ok bool) {
	make, ok := map[string]func() HelpTable{"materials": materialsTable, "elements": elementsTable, "linings": liningsTable, "hulls": hullsTable, "mounts": mountsTable, "units": unitsTable}[topic]
	if !ok {
		return t, false
	}
	t = make()
	t.Topic = topic
	return t, true
}

// materialsTable has the materials of build-ups first, then those of pipe walls and of lagging.
func materialsTable() HelpTable {
	t := HelpTable{Text: "Build-ups are layers such as 4 mm steel, 5 kg/m2 limp mat or 50 mm mineral wool; a pipe takes material: of a wall, lagging: {material: ...}. Your own go under materials:.",
		Head: []string{"for", "material", "also called", "kg/m3", "mark"}, Right: []bool{false, false, false, true, false}}
	for _, m := range panel.Default().Rows {
		density := ""
		if m.Density > 0 {
			density = fmt.Sprintf("%g", m.Density)
		}
		t.Rows = append(t.Rows, []string{"build-up", m.Name, strings.Join(m.Aliases, ", "), density, m.Mark})
	}
	for _, name := range loss.WallMaterials() {
		w, _ := loss.WallOf(name)
		t.Rows = append(t.Rows, []string{"pipe wall", name, "", "", w.Mark})
	}
	for _, name := range loss.LaggingMaterials() {
		g, _ := loss.LaggingOf(name)
		t.Rows = append(t.Rows, []string{"lagging", name, "", fmt.Sprintf("%g", g.Density), g.Mark})
	}
	return t
}

// elementsTable has a row for each kind of a line, and names what a look may find in a silencer.
func elementsTable() HelpTable {
	t := HelpTable{Text: "A line is a list of these, manifold to outlet, each with one key, its kind: - pipe: {bore: 102 mm, length: 1.2 m}. Fields with ! are required; any other may be left out or unknown. Every kind also takes " +
		keyNames(commonKeys()) + ". A silencer's kind is what a look finds in it: " + strings.Join(insides, ", ") + ".",
		Head: []string{"element", "what it is", "fields"}, Right: []bool{false, false, false}}
	for _, e := range ElementHelps() {
		t.Rows = append(t.Rows, []string{e.Kind, e.Words, keyNames(e.Keys)})
	}
	return t
}

func keyNames(keys []ElementKey) string {
	var names []string
	for _, k := range keys {
		if k.Required {
			k.Name += "!"
		}
		names = append(names, k.Name)
	}
	return strings.Join(names, ", ")
}

func liningsTable() HelpTable {
	t := HelpTable{Text: "lining: of a space is a surface, or a thickness and a material: 50 mm mineral wool. Figures are absorption coefficients by octave.",
		Head: []string{"lining", "also called", "mm"}, Right: []bool{false, false, true}}
	for _, hz := range spectrum.Nominal[2:8] {
		t.Head, t.Right = append(t.Head, fmt.Sprintf("%g Hz", hz)), append(t.Right, true)
	}
	t.Head, t.Right = append(t.Head, "mark"), append(t.Right, false)
	for _, l := range panel.Linings() {
		row := []string{l.Name, strings.Join(l.Aliases, ", "), ""}
		if l.Thickness > 0 {
			row[2] = fmt.Sprintf("%g", 1000*l.Thickness)
		}
		for _, a := range l.Absorption[2:8] {
			row = append(row, fmt.Sprintf("%.2f", a))
		}
		t.Rows = append(t.Rows, append(row, l.Mark))
	}
	return t
}

// unitsTable has a row for each kind of quantity, with every spelling that is read.
func hullsTable() HelpTable {
	t := HelpTable{Text: "hull: {material: grp} is what the boat is built of; sandwich is taken as grp. Plates are those of the engine's space where none are stated.",
		Head: []string{"material", "in other words", "kg/m3", "waves m/s", "loss factor", "plate mm", "mark"}, Right: []bool{false, false, true, true, true, true, false}}
	for _, name := range structure.MaterialNames() {
		m, _ := structure.MaterialNamed(name)
		t.Rows = append(t.Rows, []string{name, m.Words, fmt.Sprintf("%g", m.Density), fmt.Sprintf("%g", m.Speed), fmt.Sprintf("%g", m.Damping), fmt.Sprintf("%g", m.Plates[0]*1e3), m.Mark})
	}
	return t
}

func mountsTable() HelpTable {
	t := HelpTable{Text: "mounts: {kind: rubber} is what an engine stands on. How far they give under the load is judgement, taken where neither deflection, stiffness nor frequency is stated.",
		Head: []string{"kind", "in other words", "gives mm"}, Right: []bool{false, false, true}}
	for _, name := range structure.Kinds {
		k := structure.Kind(name)
		t.Rows = append(t.Rows, []string{name, k.Words(), fmt.Sprintf("%g", structure.TypicalDeflection(k)*1e3)})
	}
	return t
}

func unitsTable() HelpTable {
	t := HelpTable{Text: "Every quantity is a number with its unit. Decimals have a point. Lengths also as 5 ft 3 in, 1 5/8 in, 5 in sch 40, 2 in BSP; areas as 300 mm x 200 mm or two 80 mm holes. What is promised or measured may be a bound or a span: < 40 mbar, at least 25 dB, 3 to 5 kPa, about 80 dBA, 78 dBA ± 2.",
		Head: []string{"quantity", "such as", "units"}, Right: []bool{false, false, false}}
	for d := quantity.Length; d < quantity.Number; d++ {
		t.Rows = append(t.Rows, []string{d.String(), d.Example(), strings.Join(quantity.Spellings(d), ", ")})
	}
	return t
}
