package charts

import (
	"fmt"

	"hushwake/path/report"
)

// look is how one layout or group is told from the others: a colour, a shape of point and a dash of
// line, so that no reader depends on colour alone.
type look struct {
	colour string // a custom property of the style sheet
	shape  int    // index in shapes
	dash   int    // index in dashes
	width  float32
}

// shapes are drawn in a box of 12 by 12.
var shapes = [...]string{
	"M6 1A5 5 0 1 1 6 11A5 5 0 1 1 6 1Z",
	"M1.5 1.5H10.5V10.5H1.5Z",
	"M6 1L11 10.5H1Z",
	"M6 .5L11.5 6L6 11.5L.5 6Z",
	"M6 11L11 1.5H1Z",
	"M4.5 1H7.5V4.5H11V7.5H7.5V11H4.5V7.5H1V4.5H4.5Z",
	"M2.5 1L6 4.5L9.5 1L11 2.5L7.5 6L11 9.5L9.5 11L6 7.5L2.5 11L1 9.5L4.5 6L1 2.5Z",
	"M6 .5L10.8 3.2V8.8L6 11.5L1.2 8.8V3.2Z",
}

var dashes = [...]string{"solid", "dashed", "dotted"}

// svgDash is the same dash in the key beside the chart.
var svgDash = [...]string{"none", "5 3", "1.5 3"}

// lookOf tells groups, boxes or steps apart that are all of one rank.
func lookOf(i int) look {
	return look{colour: fmt.Sprintf("c%d", i%8+1), shape: (i + i/8) % len(shapes), dash: i % len(dashes), width: 2}
}

// lookIn is that of a layout: the chosen one in colour, today's in black, the rest grey.
func lookIn(r *report.Page, i int) look {
	k := lookOf(i)
	switch i {
	case max(r.Chosen, 0):
		k.colour, k.width, k.dash = "c1", 3, 0
	case r.Today:
		k.colour, k.width, k.dash = "ink", 2.5, 1
	default:
		k.colour, k.width = "other", 1.5
	}
	return k
}

func (l look) paint() string  { return "var:" + l.colour }
func (l look) symbol() string { return "path://" + shapes[l.shape] }
func (l look) line() string   { return dashes[l.dash] }

// mark is one entry of the key beside a chart.
type mark struct {
	Class  string // colour class
	Dash   string // of the line; empty: no line
	Shape  string // path of the point; empty: none
	Hollow bool
	Text   string
}

func (l look) mark(text string) mark {
	return mark{Class: "k-" + l.colour, Dash: svgDash[l.dash], Shape: shapes[l.shape], Text: text}
}

func (l look) point(text string) mark {
	m := l.mark(text)
	m.Dash = ""
	return m
}

// tag is the number by which a layout goes in charts: its place in the file, as the commands count.
func tag(r *report.Page, i int) string { return fmt.Sprint(r.Layouts[i].Place) }

// titled is tag, name and, in words, whether the layout is refused.
func titled(r *report.Page, i int) string {
	s := tag(r, i) + " · " + r.Layouts[i].Name
	if r.Layouts[i].Refused {
		s += " (refused)"
	}
	return s
}
