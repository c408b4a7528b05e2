package interview

import (
	"fmt"
	"math"
	"strconv"
)

const box = "/enclosures/box"

// Walls, linings and fans are common ones (common practice, no source); holes are read as they are written.
var aboutBox = []Question{{
	ID: "box-size", Place: box + "/size", Words: "How big is the box inside?", Why: "Length, width, height. A larger box is cooler and a little quieter.", Kind: OfQuantity, asked: whenever("box"),
	Fields:  []Field{{Words: "Length", Example: "1.1 m"}, {Words: "Width", Example: "0.7 m"}, {Words: "Height", Example: "0.75 m"}},
	put:     func(d *draft, _ *Interview, value []string) { d.set(box+"/size", triple(d, value)) },
	Default: "1.1 m by 0.7 m by 0.75 m", Source: judged, rivals: these("0.8 m, 0.5 m, 0.6 m", "1.6 m, 1 m, 1 m"), called: "size of the box",
}, {
	ID: "box-wall", Place: box + "/build_up", Words: "What are its walls made of?", Why: "Heavy walls keep more in.", Kind: OfWalls, asked: whenever("box"), Choices: []Choice{
		{"plywood", "Board, about 12 mm", "wall-board", "[12 mm plywood]"}, {"grp", "Plastic, about 4 mm", "wall-thin", "[4 mm grp]"}, {"steel", "Steel sheet, about 1.5 mm", "wall-steel", "[1.5 mm steel]"},
		{"mat", "Board with a heavy limp mat on foam", "wall-insulated", "[12 mm plywood, 25 mm foam, 5 kg/m2 limp mat]"}},
}, {
	ID: "box-lining", Place: box + "/lining", Words: "What is it lined with inside?", Why: "A soft lining takes the sound that would go round and round in the box.", Kind: OfChoice, asked: whenever("box"), Choices: []Choice{
		{"bare", "Nothing", "lining-bare", "hard surfaces"}, {"foam", "Foam, about 25 mm", "lining-foam", "25 mm foam"}, {"wool", "Mineral wool, about 50 mm", "lining-wool", "50 mm mineral wool"}},
}, {
	ID: "holes", Place: box + "/openings", Words: "Which holes has the box?", Why: "A hole the size of a hand lets out more than all walls together. Air must get in and out. Tap each hole; write how wide a round one is, or its area.",
	Kind: OfParts, asked: whenever("box"), Parts: holeParts, fill: putHoles,
	skip: func(d *draft, _ *Interview) { d.unknown(box + "/openings") },
}, {
	ID: "breathes", Place: box + "/own_air_pipe", Words: "Where does the engine in the box breathe?", Why: "A pipe of its own from outside needs no hole that lets sound out of the box.", Kind: OfChoice, asked: whenever("box"), Choices: []Choice{
		{"box", "Out of the box", "breath-box", "false"}, {"pipe", "Through a pipe of its own", "breath-pipe", "true"}},
}, {
	ID: "fan", Default: "no fan", Source: "common practice, no source", Place: box + "/fan", Words: "Has the box a fan?", Why: "A fan moves air through small or lined holes.", Kind: OfChoice, asked: whenever("box"), Choices: []Choice{
		{"none", "No", "fan-none", "none"}, {"small", "A small one, as wide as a hand", "fan", "{flow: 0.05 m3/s, at_pressure: 40 Pa}"}, {"large", "A large one, as wide as a plate", "fan", "{flow: 0.2 m3/s, at_pressure: 60 Pa}"}},
}, {
	ID: "cooled", Default: "air", Source: "common practice, no source", Place: "/engines/set/generator/cooling", Words: "What cools the generator behind the engine?", Why: "Air-cooled, it heats the box by several kilowatts, which the air has to carry out.", Kind: OfChoice, asked: whenever("box"), Choices: []Choice{
		{"air", "Air, it has slots and a fan wheel", "cool-air", ""}, {"water", "Water, hoses run to it", "cool-water", ""}},
}, {
	ID: "box-warm", Place: "/readings", Words: "Have you measured how warm it gets in the box?", Why: "It tells how much air passes, and how leaky the box is.", Kind: OfQuantity, asked: whenever("box"),
	Default: "nothing", free: true,
	Fields: []Field{{Words: "Warmest air in it, after an hour", Example: "60 °C"}}, skip: func(d *draft, v *Interview) { v.putReading(d, "box-warm", "") },
	put: func(d *draft, v *Interview, value []string) {
		v.putReading(d, "box-warm", filled("{space: box, layout: as is, temperature: %s}", value[0]))
	},
}}

var holeField = []Field{{Words: "Width or area", Example: "80 mm"}, {Words: "Lined", Choices: []Choice{{"bare", "A bare hole", "", ""}, {"lined", "A lined air channel with a bend", "", ""}}}}

var holeParts = []Part{
	{Kind: "in", Words: "Air goes in", Picture: "hole-in", Fields: holeField, usual: []string{"80 mm", "bare"}, needs: 1, write: "role: inlet, area: %s cm2"},
	{Kind: "out", Words: "Air comes out", Picture: "hole-out", Fields: holeField, usual: []string{"80 mm", "bare"}, needs: 1, write: "role: outlet, area: %s cm2"},
	{Kind: "gap", Words: "A gap at lid, pipes or cables", Picture: "hole-gap", Fields: holeField[:1], usual: []string{"5 cm2"}, needs: 1, write: "role: leak, area: %s cm2"},
}

// putHoles writes the holes; none at all is said too.
func putHoles(d *draft, _ *Interview, rows [][]string) {
	at := box + "/openings"
	d.set(at, "[]")
	for _, row := range rows {
		row = stated(holeParts, row)
		area, err := areaOf(row[1])
		if err != nil {
			d.err = err
			return
		}
		item := fmt.Sprintf(partOf(holeParts, row[0]).write, short(area*1e4))
		if field(row, 2) == "lined" {
			item += ", " + lined(area)
		}
		d.add(at, "{"+item+"}")
	}
}

// lined is a square air channel of an area; 0.6 m with a bend and 25 mm of foam is common practice, no source.
func lined(area float64) string {
	side := metre(math.Sqrt(area))
	return fmt.Sprintf("lined_duct: {length: 0.6 m, size: [%s, %s], lining: 25 mm foam, bends: 1}", side, side)
}

// short writes a figure to three digits.
func short(v float64) string { return strconv.FormatFloat(v, 'g', 3, 64) }
