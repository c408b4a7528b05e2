package interview

import (
	"fmt"
	"strings"

	"hushwake/silencer"
)

var (
	looks = lookChoices()
	ages  = []Choice{{"unknown", "I can’t tell", "", ""}, {"new", "Like new", "", ""}, {"old", "Old", "", ""}, {"holed", "Rusted through", "", ""}, {"sooted", "Full of soot", "", ""}}
)

// lookChoices are the silencers that the model knows by their look.
func lookChoices() (all []Choice) {
	for _, in := range silencer.Interiors {
		all = append(all, Choice{Value: string(in.Inside), Words: in.Words})
	}
	return all
}

var (
	boreField   = Field{Words: "Inner width", Example: "76 mm"}
	lengthField = Field{Words: "Length", Example: "1 m"}
)

// lineParts are what one meets on an exhaust; each is known by a look and at most two figures.
var lineParts = []Part{
	{Kind: "pipe", Words: "Metal pipe", Picture: "pipe", Fields: []Field{boreField, lengthField}, usual: []string{"76 mm", "1 m"}, needs: 2},
	{Kind: "bend", Words: "Bend", Picture: "bend"},
	{Kind: "bellows", Words: "Flexible metal piece", Picture: "bellows", Fields: []Field{lengthField}},
	{Kind: "silencer", Words: "Silencer", Picture: "silencer", Fields: []Field{{Words: "Inside", Choices: looks}, {Words: "State", Choices: ages}, lengthField, {Words: "Outer width", Example: "250 mm"}}},
	{Kind: "injection", Words: "Here water is sprayed in", Picture: "injection", Fields: []Field{{Words: "Height over the sea", Example: "350 mm"}}},
	{Kind: "hose", Words: "Rubber hose", Picture: "hose", Fields: []Field{boreField, lengthField}, usual: []string{"76 mm", "1 m"}, needs: 2},
	{Kind: "lift", Words: "Water box (the gas lifts water out of it)", Picture: "lift", Fields: []Field{{Words: "Width", Example: "250 mm"}, {Words: "Height", Example: "350 mm"}}},
	{Kind: "separator", Words: "Separator (gas goes up, water goes down)", Picture: "separator"},
}

// putLine writes the parts in their order.
func (v *Interview) putLine(d *draft, rows [][]string) {
	if len(rows) == 0 {
		d.fail("an exhaust has at least one part\nhint: add a pipe or a hose")
		return
	}
	at, silencers, injections := v.at("{line}"), 0, 0
	d.unknown(at)
	for _, row := range rows {
		row = stated(lineParts, row)
		switch row[0] {
		case "silencer":
			silencers++
		case "injection":
			injections++
		}
		d.add(at, d.element(row, silencers))
	}
	if injections > 1 {
		d.fail("water is sprayed in at one place of an exhaust\nhint: move that part in the list, or take it out first")
	}
}

// element is one part as it stands in a file; a silencer has a name, so that it can be replaced.
func (d *draft) element(row []string, silencers int) string {
	fields := row[1:]
	switch row[0] {
	case "pipe", "hose":
		return row[0] + filled(": {bore: %s, length: %s}", fields...)
	case "bend":
		return "elbow: {angle: 90 deg}"
	case "bellows":
		return "bellows: {length: " + orUnknown(fields[0]) + "}"
	case "silencer":
		return fmt.Sprintf("silencer: {name: %s, kind: %s, state: %s, length: %s, diameter: %s}", silencerName(silencers),
			d.chosen(looks, fields[0]), d.chosen(ages, fields[1]), orUnknown(fields[2]), orUnknown(fields[3]))
	case "injection":
		return "water_injection: {height_over_waterline: " + orUnknown(fields[0]) + "}"
	case "lift":
		return fmt.Sprintf("lift_chamber: {bore: %s, height: %s}", orUnknown(fields[0]), orUnknown(fields[1]))
	}
	return "separator: {bore: unknown}"
}

func silencerName(n int) string {
	if n == 1 {
		return "silencer"
	}
	return fmt.Sprintf("silencer %d", n)
}

func orUnknown(s string) string {
	if s == "" {
		return "unknown"
	}
	return scalar(s)
}

// has tells whether a kind of part is in the line.
func (v *Interview) has(kind string) bool {
	for _, row := range v.Rows("line") {
		if row[0] == kind {
			return true
		}
	}
	return false
}

// last is what the file calls the last part of the line: its kind, with its number where there are several.
func (v *Interview) last() string {
	rows := v.Rows("line")
	last, same := rows[len(rows)-1], 0
	for _, row := range rows {
		if row[0] == last[0] {
			same++
		}
	}
	if last[0] == "silencer" {
		return silencerName(same)
	}
	kind, _, _ := strings.Cut((&draft{}).element(stated(lineParts, last), 1), ":")
	if same == 1 {
		return kind
	}
	return fmt.Sprintf("%s %d", kind, len(rows))
}
