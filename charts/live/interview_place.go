package live

import (
	"math"
	"strconv"

	"hushwake/charts/picture"
	"hushwake/path/interview"
)

// axis is one direction of a boat in the question after a place.
type direction struct{ words, note string }

var directions = [3]direction{
	{"Forward of the stern", "0 m is the back end"},
	{"To the right of the middle", "-1 m is to the left"},
	{"Above the water", "0 m is the water"},
}

// place asks for a point: it is dragged in two views, moved with arrow keys, or written in three fields. The views follow the fields.
func (m *markup) place(v *interview.Interview, q *interview.Question, wrong slip) {
	at, _ := v.Placed(q.ID)
	m.form(q, "figures places")
	m.open("div", "class", "views")
	side, top := views(v, at)
	m.scene(v, q, side)
	m.scene(v, q, top)
	m.shut("div")
	m.open("div", "class", "three")
	for i, d := range directions {
		value := metres(at[i])
		if tried := v.Tried(q.ID); len(tried) == 3 {
			value = tried[i]
		}
		id := "figure-" + strconv.Itoa(i)
		m.open("p", "class", "field")
		m.leaf("label", d.words, "for", id)
		m.open("input", "id", id, "name", "to", "value", value, "required", "", "data-axis", strconv.Itoa(i), "aria-describedby", when(wrong.in(value, i == 0), "wrong"), "aria-invalid", when(wrong.in(value, i == 0), "true"))
		m.leaf("span", d.note, "class", "note")
		m.shut("p")
	}
	m.shut("div")
	m.leaf("button", "There it is", "class", "main")
	m.shut("form")
}

func metres(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100+0, 'f', -1, 64) + " m"
}

// scene is a view of the boat: what runs across and what runs up, how many units a metre has, and where zero is.
type scene struct {
	title             string
	across, up        int // axes
	scale, x0, y0     float64
	wide, high        float64
	flip              float64 // +1 = the axis runs down the paper
	long, beam, depth float64
}

// sceneWidth is how wide a view is drawn, units.
const sceneWidth = 340

// views are the boat from the side and from above, with room for the point. Beam and freeboard are usual shares of the length; judgement,
// they serve the eye alone.
func views(v *interview.Interview, at [3]float64) (side, top scene) {
	long := v.Length()
	aft, fore := math.Min(-1, at[0]-0.5), math.Max(long+1, at[0]+0.5)
	scale := sceneWidth / (fore - aft)
	beam, high := 0.32*long, math.Max(4.5, at[2]+0.5)
	low, half := math.Min(-1, at[2]-0.3), math.Max(beam/2+0.8, math.Abs(at[1])+0.5)
	side = scene{title: "From the right side", across: 0, up: 2, scale: scale, x0: -aft * scale, y0: high * scale, wide: sceneWidth, high: (high - low) * scale, flip: -1, long: long, beam: beam, depth: 0.1 * long}
	top = scene{title: "From above", across: 0, up: 1, scale: scale, x0: -aft * scale, y0: half * scale, wide: sceneWidth, high: 2 * half * scale, flip: 1, long: long, beam: beam}
	return side, top
}

func (s scene) x(v float64) string { return num(s.x0 + v*s.scale) }

func (s scene) y(v float64) string { return num(s.y0 + s.flip*v*s.scale) }

func num(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10+0, 'f', -1, 64) }

// scene draws a view with the point that is asked for and those that are known.
func (m *markup) scene(v *interview.Interview, q *interview.Question, s scene) {
	m.open("svg", "class", "view", "viewBox", "0 0 "+num(s.wide)+" "+num(s.high), "data-scale", num(s.scale*100), "data-x0", num(s.x0), "data-y0", num(s.y0),
		"data-across", strconv.Itoa(s.across), "data-up", strconv.Itoa(s.up), "data-flip", num(s.flip), "role", "group", "aria-label", s.title)
	s.hull(m)
	for _, other := range []struct{ at, name string }{{"engine", "engine"}, {"outlet", "pipe’s end"}, {"ear", "ears"}} {
		place, ok := v.Placed(other.at)
		if done, _ := v.Asked(other.at); ok && other.at != q.ID && done {
			m.WriteString(`<circle class="known" cx="` + s.x(place[s.across]) + `" cy="` + s.y(place[s.up]) + `" r="5"/><text x="` + s.x(place[s.across]) + `" y="` + s.y(place[s.up]) + `" dx="8" dy="4">` + picture.Escape(other.name) + "</text>")
		}
	}
	at, _ := v.Placed(q.ID)
	m.WriteString(`<g class="handle" tabindex="0" role="button" aria-roledescription="point to move" aria-label="` + picture.Escape(s.title+": the point; move it with the arrow keys") +
		`" transform="translate(` + s.x(at[s.across]) + " " + s.y(at[s.up]) + `)"><circle r="18" class="reach"/><circle r="8"/><path d="M-14 0H14M0 -14V14"/></g>`)
	m.shut("svg")
}

// hull is the outline of a boat, its stern on the left.
func (s scene) hull(m *markup) {
	if s.up == 2 {
		m.WriteString(`<path class="sea" d="M0 ` + s.y(0) + "H" + num(s.wide) + "V" + num(s.high) + `H0Z"/>`)
		m.WriteString(`<path class="hull" d="M` + s.x(0) + " " + s.y(s.depth) + "L" + s.x(s.long) + " " + s.y(1.3*s.depth) + "L" + s.x(0.9*s.long) + " " + s.y(-0.05*s.long) + "H" + s.x(0.02*s.long) + `Z"/>`)
		m.WriteString(`<path class="hull" d="M` + s.x(0.35*s.long) + " " + s.y(s.depth) + "V" + s.y(s.depth+1.2) + "H" + s.x(0.6*s.long) + "L" + s.x(0.68*s.long) + " " + s.y(1.15*s.depth) + `"/>`)
	} else {
		b := s.beam / 2
		m.WriteString(`<path class="hull" d="M` + s.x(0) + " " + s.y(-0.85*b) + "Q" + s.x(0.5*s.long) + " " + s.y(-1.2*b) + " " + s.x(s.long) + " " + s.y(0) + "Q" + s.x(0.5*s.long) + " " + s.y(1.2*b) + " " + s.x(0) + " " + s.y(0.85*b) + `Z"/>`)
	}
	m.leaf("text", s.title, "x", "6", "y", "14")
}
