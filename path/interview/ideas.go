package interview

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile/spelling"
)

// Idea is a change that can be tried beside the boat as it is: a layout of its own in the file.
type Idea struct {
	ID, Words, Why string
	Taken          bool
}

var aboutIdeas = []Question{{
	ID: "ideas", Place: "/layouts", Words: "What would you like to try?", Why: "Each is worked out beside your boat as it is. Nothing is bought by tapping.", Kind: OfIdeas, asked: anyBoat, Default: "nothing", free: true, skip: leave,
}}

// template is an idea: the layout that it adds, like the boat as it is but for the change.
type template struct {
	id, name, words, why string
	fits                 func(v *Interview) bool
	change               func(v *Interview) string
}

// Sizes in the templates are in bores of the pipe; common practice, no source, and judgement where a doubt stands beside the figure.
var templates = []template{{
	id: "clean", name: "silencer as new", words: "Clean or renew the old silencer", why: "A rusted or sooted silencer has lost part of what it could do.",
	fits:   func(v *Interview) bool { return v.has("silencer") },
	change: func(v *Interview) string { return "replace: {silencer: {silencer: " + v.renewed() + "}}" },
}, {
	id: "second", name: "second silencer", words: "A second silencer behind all else", why: "A tube with holes in wool, in the last piece before the open air.",
	fits: func(v *Interview) bool { return len(v.Rows("line")) > 0 },
	change: func(v *Interview) string {
		return "insert: {before: " + v.last() + ", elements: [{silencer: " + v.another() + "}]}"
	},
}, {
	id: "wet", name: "wet with a water box", words: "Spray water in, with a water box", why: "Water cools the gas and fills the box; what comes out at the stern is far quieter. Much work.",
	fits: func(v *Interview) bool { return !v.wet() }, change: (*Interview).wetted,
}, {
	id: "seal", name: "gaps sealed", words: "Seal the door or hatch of the engine", why: "A rubber strip all round; the cheapest of all.",
	fits: func(v *Interview) bool { return v.doorLeaks() }, change: func(*Interview) string { return "changes: {partitions: [{name: engine wall, open_area: 0 cm2}]}" },
}, {
	id: "wall", name: "heavier wall", words: "A heavy mat on the wall to the engine", why: "Foam with a heavy limp mat on it, on the engine’s side.",
	fits: func(*Interview) bool { return true },
	change: func(*Interview) string {
		return "changes: {partitions: [{name: engine wall, build_up: [18 mm plywood, 25 mm foam, 5 kg/m2 limp mat]}]}"
	},
}, {
	id: "mounts", name: "soft mounts", words: "Softer feet under the engine", why: "Less of its shaking gets into the hull.",
	fits:   func(*Interview) bool { return true },
	change: func(v *Interview) string { return v.at("changes: {engines: {{engine}: {mounts: {kind: soft}}}}") },
}, {
	id: "box", name: "box round the engine", words: "A box round the engine", why: "Board with foam and a heavy mat, with lined ways for the air.",
	fits: func(v *Interview) bool { return v.goal != "box" },
	change: func(v *Interview) string {
		return "changes: {engines: {main: {enclosure: box}}, enclosures: {box: {size: [1.4 m, 0.9 m, 1 m], build_up: [12 mm plywood, 25 mm foam, 5 kg/m2 limp mat], lining: 25 mm foam, openings: [" + airway("inlet") + ", " + airway("outlet") + "]}}}"
	},
}, {
	id: "ducts", name: "lined ways for the air and a fan", words: "Lined ways for the air, with a fan", why: "Cool and quiet at once: the air passes, the sound is taken on the way.",
	fits: whenever("box"),
	change: func(*Interview) string {
		return "changes: {enclosures: {box: {fan: {flow: 0.2 m3/s, at_pressure: 60 Pa}, openings: [" + airway("inlet") + ", " + airway("outlet") + "]}}}"
	},
}, {
	id: "mat", name: "heavier box", words: "Foam and a heavy mat in the box", why: "Its walls keep more in; the holes have to be seen to first.",
	fits: whenever("box"), change: func(*Interview) string {
		return "changes: {enclosures: {box: {build_up: [12 mm plywood, 25 mm foam, 5 kg/m2 limp mat], lining: 25 mm foam}}}"
	},
}}

func airway(role string) string {
	return "{role: " + role + ", area: 360 cm2, " + lined(0.036) + "}"
}

// Ideas are those that fit this boat, in order.
func (v *Interview) Ideas() (out []Idea) {
	for _, t := range templates {
		if t.fits(v) {
			out = append(out, Idea{t.id, t.words, t.why, layoutAt(v.text, t.name) != ""})
		}
	}
	return out
}

// Take adds the layout of an idea; taken already, it is taken out again.
func (v *Interview) Take(id string) error {
	i := slices.IndexFunc(templates, func(t template) bool { return t.id == id && t.fits(v) })
	if i < 0 {
		var all []string
		for _, idea := range v.Ideas() {
			all = append(all, idea.ID)
		}
		return fmt.Errorf("no idea %q fits this boat\nhint: one of %s", spelling.Clip(id), strings.Join(all, ", "))
	}
	t, d := templates[i], &draft{text: v.text}
	if layoutAt(v.text, t.name) != "" {
		d.dropLayout(t.name)
	} else {
		d.add("/layouts", "{name: "+t.name+", like: as is, "+t.change(v)+"}")
	}
	return v.keep(v.state, d)
}

// bore is that of the last pipe or hose of the line.
func (v *Interview) bore() string {
	bore := "76 mm"
	for _, row := range v.Rows("line") {
		if partOf(lineParts, row[0]).tube {
			bore = stated(lineParts, row)[1]
		}
	}
	return bore
}

// renewed is the first silencer as it was when new.
func (v *Interview) renewed() string {
	for _, row := range v.Rows("line") {
		if p := partOf(lineParts, row[0]); p.named {
			row = slices.Clone(row)
			for i, f := range p.Fields {
				row[i+1] = cmp.Or(f.asNew, row[i+1])
			}
			_, body, _ := strings.Cut((&draft{}).element(row, 1), ": ")
			return body
		}
	}
	return ""
}

// another is a packed silencer, three bores wide and eight long.
func (v *Interview) another() string {
	bore, _ := lengthOf(v.bore())
	return fmt.Sprintf("{name: second silencer, kind: packed, state: new, bore: %s, length: %s, diameter: %s}", scalar(v.bore()), metre(8*bore), metre(3*bore))
}

// wetted is an exhaust with water from the engine to the stern.
func (v *Interview) wetted() string {
	bore := scalar(v.bore())
	return v.at("exhausts: {{engine}: {line: [{pipe: {bore: " + bore + ", length: 0.3 m}}, {water_injection: {flow: unknown}}, {hose: {bore: " + bore + ", length: 1 m}}, {lift_chamber: {bore: unknown, height: unknown}}, {hose: {bore: " + bore + ", length: 3 m}}], outlet: {at: [0 m, 0.6 m, 0.2 m], pointing: aft}}}")
}

// doorLeaks tells whether the wall to the engine has more than a sealed door, or may have.
func (v *Interview) doorLeaks() bool {
	value, _ := getPlain(v.text, "/partitions/0/open_area")
	return value != "0 cm2"
}
