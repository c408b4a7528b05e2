package picture

import (
	"math"
	"slices"
)

// Point is a place in ship's axes, m: x forward of the transom, y to starboard of the centreline, z up from the waterline.
type Point [3]float64

// Boat is one layout to scale.
type Boat struct {
	Title    string // states the finding
	Layout   string
	Now      string   // name of today's layout that the ghost shows; "" = none, or it is this one
	Chosen   string   // seat that the arrows lead to
	Spaces   []Space  // those with a place
	Engines  []Engine // those with a place
	Outlets  []Mouth
	Runs     []Run
	Seats    []Seat
	Ways     []Arrow  // to the chosen seat, loudest first
	Unplaced []string // what the file gives no place
	Feet     bool     // scale and distances in feet
}

// Space is a room: its aft, port, lowest corner and its length, width and height, m.
type Space struct {
	Name     string
	At, Size Point
}

// Engine is where an engine stands, and the box round it.
type Engine struct {
	Name string
	At   Point
	Box  string // "" = none
	Size Point  // m, of the box inside; its place is taken as round the engine
}

// Mouth is the end of an exhaust line.
type Mouth struct {
	Name     string
	At       Point
	Pointing Point // unit vector
	Was      bool  // of today's layout, drawn as its ghost
}

// Run is the way of a line through the spaces that it passes, engine first; schematic between them.
type Run struct {
	Engine string
	Points []Point
	Bore   float64 // m
	Was    bool    // of today's layout
}

// Seat is a place where a person hears.
type Seat struct {
	Name  string
	At    Point
	Level Level
	Limit *float64 // dB(A)
	Now   *float64 // dB(A) in today's layout, nil = this is it or there is none
	Rules Way      // the way that brings most of it
}

// Arrow is a way by which sound comes to the chosen seat.
type Arrow struct {
	Way     Way
	Source  string // "main exhaust"
	Level   float64
	From    Point
	Nowhere bool // it has no place to come from
}

// SVG draws the boat from starboard and from above, one under the other.
func (b Boat) SVG(id string, w Width) (string, error) {
	p := newPen(id, w)
	d := &sketch{pen: p, boat: &b}
	d.measure()
	if p.bad {
		return "", errNumber
	}
	y := d.view(side, 0)
	y = d.view(above, y+10)
	y = d.key(y + 6)
	return p.picture("boat", b.Title, b.said(), y, nil)
}

// over tells whether a seat is over its limit.
func (s Seat) over() bool { return s.Limit != nil && !s.Level.Unjudged && s.Level.DBA > *s.Limit }

// said is the picture in words.
func (b Boat) said() string {
	var seats []string
	for _, s := range b.Seats {
		t := s.Name + " " + s.Level.Said()
		if s.Limit != nil {
			t += ", limit " + whole(*s.Limit)
		}
		if s.Now != nil {
			t += ", now " + decibels(*s.Now)
		}
		seats = append(seats, t)
	}
	out := "The boat to scale from starboard and from above with layout " + b.Layout + ". Seats: " + Listed(seats) + "."
	if len(b.Unplaced) > 0 {
		out += " Without a place in the file: " + Listed(b.Unplaced) + "."
	}
	return out
}

// view is a direction in which the boat is looked at.
type view struct {
	name, title string
	down        func(Point) float64 // what leads down the paper, m
	depth       func(Space) float64 // nearer is drawn later
}

var (
	side = view{name: "side", title: "from starboard", down: func(p Point) float64 { return -p[2] },
		depth: func(s Space) float64 { return s.At[1] + s.Size[1] }}
	above = view{name: "above", title: "from above, port side up", down: func(p Point) float64 { return p[1] },
		depth: func(s Space) float64 { return s.At[2] + s.Size[2] }}
)

// nearby is how far off the boat a seat may lie to be drawn in its place, m.
const nearby = 3.0

// sketch is the drawing of one boat.
type sketch struct {
	*pen
	boat     *Boat
	low, top Point   // of all that is drawn to scale, m
	scale    float64 // units for a metre
	left     float64 // of the drawing

	v      view
	origin float64 // on the paper of v.down = 0
	board  board
	labels []*label
}

// measure finds what has to be drawn and the scale that lets it in.
func (d *sketch) measure() {
	d.low, d.top = Point{0, 0, 0}, Point{0, 0, 0}
	placed := d.boat.placed()
	for i, p := range placed {
		if i == 0 {
			d.low, d.top = p, p
		}
		d.grow(p)
	}
	low, top := d.low, d.top
	for i, s := range d.boat.Seats {
		d.check(s.At[:]...)
		d.check(s.Level.shown()...)
		if i == 0 && len(placed) == 0 {
			d.low, d.top, low, top = s.At, s.At, s.At, s.At
		}
		if inside(s.At, low, top, nearby) {
			d.grow(s.At)
		}
	}
	d.low[2], d.top[2] = math.Min(d.low[2], 0), math.Max(d.top[2], 0)
	d.left = d.width.pick(24, 12)
	d.scale = (d.width.units() - 2*d.left) / math.Max(d.top[0]-d.low[0]+0.6, 2)
}

// placed are the places of the boat itself.
func (b *Boat) placed() (all []Point) {
	for _, s := range b.Spaces {
		all = append(all, s.At, Point{s.At[0] + s.Size[0], s.At[1] + s.Size[1], s.At[2] + s.Size[2]})
	}
	for _, e := range b.Engines {
		all = append(all, e.At)
	}
	for _, m := range b.Outlets {
		all = append(all, m.At)
	}
	for _, r := range b.Runs {
		all = append(all, r.Points...)
	}
	return all
}

// grow makes room for a place.
func (d *sketch) grow(p Point) {
	d.check(p[:]...)
	for i, v := range p {
		d.low[i], d.top[i] = math.Min(d.low[i], v), math.Max(d.top[i], v)
	}
}

func inside(p, low, top Point, margin float64) bool {
	for i, v := range p {
		if v < low[i]-margin || v > top[i]+margin {
			return false
		}
	}
	return true
}

// at leads a place onto the paper.
func (d *sketch) at(p Point) (x, y float64) {
	return d.left + (p[0]-d.low[0]+0.3)*d.scale, d.origin + d.v.down(p)*d.scale
}

// view draws the boat from one direction with its upper edge at y, and returns its lower edge.
func (d *sketch) view(v view, y float64) float64 {
	d.v, d.labels = v, nil
	high, low := v.down(d.low), v.down(d.top)
	if high > low {
		high, low = low, high
	}
	head := d.size()*1.5 + 4
	roof, floor := d.width.pick(34, 54), d.width.pick(40, 66)
	if v.name == above.name {
		roof, floor = d.width.pick(24, 42), d.width.pick(36, 58)
	}
	d.origin = y + head + roof - high*d.scale
	bottom := d.origin + low*d.scale + floor
	d.board = board{in: rect{2, y + head, d.width.units() - 4, bottom - y - head - 2}}
	d.open("g", "class", "pic-view", "data-view", v.name)
	d.heading(v, y+d.size()*1.2)
	d.water(bottom)
	d.bar(bottom)
	d.spaces()
	d.runs()
	d.seats()
	d.arrows()
	d.waterline()
	d.place()
	d.shut("g")
	return bottom + d.board.grown
}

func (d *sketch) size() float64 { return d.width.size() }

// place finds room for all labels, those of seats first, and draws them.
func (d *sketch) place() {
	rank := func(l *label) int {
		return slices.Index([]string{"pic-seat", "pic-outlet", "pic-engine", "pic-water", "pic-space"}, l.kind)
	}
	slices.SortStableFunc(d.labels, func(a, b *label) int { return rank(a) - rank(b) })
	seats := len(d.boat.Seats)
	for _, l := range d.labels {
		l.measure(d.size())
	}
	d.board.settle(d.labels[:seats])
	for _, l := range d.labels[seats:] {
		d.board.put(l)
	}
	for _, l := range d.labels {
		d.leader(l, &d.board)
	}
	for _, l := range d.labels {
		d.label(l)
	}
}
