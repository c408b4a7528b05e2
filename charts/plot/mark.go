package plot

import "fmt"

// Look is how one series is told from the others: a colour, a shape of point and a dash of
// line, so that no reader depends on colour alone.
type Look struct {
	Colour string // a custom property of the style sheet
	shape  int    // index in shapes
	Dash   int    // index in dashes
	Width  float32
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

// SvgDash is the same dash in the key beside the chart.
var SvgDash = [...]string{"none", "5 3", "1.5 3"}

// LookOf tells groups, boxes or steps apart that are all of one rank.
func LookOf(i int) Look {
	return Look{Colour: fmt.Sprintf("c%d", i%8+1), shape: (i + i/8) % len(shapes), Dash: i % len(dashes), Width: 2}
}

// Paint is the colour for an option of a chart.
func (l Look) Paint() string { return "var:" + l.Colour }

// Symbol is the shape of a point for an option of a chart.
func (l Look) Symbol() string { return "path://" + shapes[l.shape] }

// Line is the dash for an option of a chart.
func (l Look) Line() string { return dashes[l.Dash] }

// Mark is one entry of the key beside a chart.
type Mark struct {
	Class  string // colour class
	Dash   string // of the line; empty: no line
	Shape  string // path of the point; empty: none
	Hollow bool
	Text   string
}

// Mark is the entry of a series that has a line.
func (l Look) Mark(text string) Mark {
	return Mark{Class: "k-" + l.Colour, Dash: SvgDash[l.Dash], Shape: shapes[l.shape], Text: text}
}

// Point is the entry of a series of points alone.
func (l Look) Point(text string) Mark {
	m := l.Mark(text)
	m.Dash = ""
	return m
}
