package interview

import (
	"fmt"
	"slices"
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

// tube is a kind of pipe.
func tube(kind, words string) Part {
	return Part{Kind: kind, Words: words, Picture: kind, Fields: []Field{boreField, lengthField}, usual: []string{"76 mm", "1 m"}, needs: 2, tube: true, write: kind + ": {bore: %s, length: %s}"}
}

// lineParts are what one meets on an exhaust; each is known by a look and at most two figures.
var lineParts = []Part{
	tube("pipe", "Metal pipe"),
	{Kind: "bend", Words: "Bend", Picture: "bend", write: "elbow: {angle: 90 deg}"},
	{Kind: "bellows", Words: "Flexible metal piece", Picture: "bellows", Fields: []Field{lengthField}, write: "bellows: {length: %s}"},
	{Kind: "silencer", Words: "Silencer", Picture: "silencer", Fields: []Field{{Words: "Inside", Choices: looks}, {Words: "State", Choices: ages, asNew: "new"}, lengthField, {Words: "Outer width", Example: "250 mm"}},
		named: true, write: "silencer: {name: %s, kind: %s, state: %s, length: %s, diameter: %s}"},
	{Kind: "injection", Words: "Here water is sprayed in", Picture: "injection", Fields: []Field{{Words: "Height over the sea", Example: "350 mm"}}, write: "water_injection: {height_over_waterline: %s}",
		twice: "water is sprayed in at one place of an exhaust\nhint: move that part in the list, or take it out first"},
	tube("hose", "Rubber hose"),
	{Kind: "lift", Words: "Water box (the gas lifts water out of it)", Picture: "lift", Fields: []Field{{Words: "Width", Example: "250 mm"}, {Words: "Height", Example: "350 mm"}}, write: "lift_chamber: {bore: %s, height: %s}"},
	{Kind: "separator", Words: "Separator (gas goes up, water goes down)", Picture: "separator", write: "separator: {bore: unknown}"},
}

// putLine writes the parts in their order.
func (v *Interview) putLine(d *draft, rows [][]string) {
	if len(rows) == 0 {
		d.fail("an exhaust has at least one part\nhint: add a pipe or a hose")
		return
	}
	at, nth := v.at("{line}"), map[string]int{}
	d.unknown(at)
	for _, row := range rows {
		nth[row[0]]++
		d.add(at, d.element(row, nth[row[0]]))
		if p := partOf(lineParts, row[0]); p.twice != "" && nth[row[0]] > 1 {
			d.fail("%s", p.twice)
		}
	}
}

// element is a row as it stands in a file, the nth of its kind.
func (d *draft) element(row []string, nth int) string {
	p, args := partOf(lineParts, row[0]), []any{}
	if p.named {
		args = append(args, nthName(p.Kind, nth))
	}
	for i, value := range stated(lineParts, row)[1:] {
		if all := p.Fields[i].Choices; all != nil {
			args = append(args, d.chosen(all, value))
		} else {
			args = append(args, orUnknown(value))
		}
	}
	return fmt.Sprintf(p.write, args...)
}

// nthName is what the nth of some parts that have a name is called.
func nthName(kind string, n int) string {
	if n == 1 {
		return kind
	}
	return fmt.Sprintf("%s %d", kind, n)
}

func orUnknown(s string) string {
	if s == "" {
		return "unknown"
	}
	return scalar(s)
}

// has tells whether a kind of part is in the line.
func (v *Interview) has(kind string) bool { return hasKind(v.Rows("line"), kind) }

func hasKind(rows [][]string, kind string) bool {
	return slices.ContainsFunc(rows, func(row []string) bool { return row[0] == kind })
}

// last is what the file calls the last part of the line: its name, or its kind with its number where there are several.
func (v *Interview) last() string {
	rows := v.Rows("line")
	last, same := rows[len(rows)-1], 0
	for _, row := range rows {
		if row[0] == last[0] {
			same++
		}
	}
	if partOf(lineParts, last[0]).named {
		return nthName(last[0], same)
	}
	kind, _, _ := strings.Cut((&draft{}).element(last, 1), ":")
	if same == 1 {
		return kind
	}
	return fmt.Sprintf("%s %d", kind, len(rows))
}
