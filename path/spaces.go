package path

import (
	"hushwake/source"
	"math"
	"slices"
)

// Space finds a space of the layout by name.
func (l *Layout) Space(name string) (*Space, bool) {
	for i := range l.Spaces {
		if l.Spaces[i].Name == name {
			return &l.Spaces[i], true
		}
	}
	return nil, false
}

// Enclosure finds an enclosure of the layout by name.
func (l *Layout) Enclosure(name string) (*Enclosure, bool) {
	for i := range l.Enclosures {
		if l.Enclosures[i].Name == name {
			return &l.Enclosures[i], true
		}
	}
	return nil, false
}

// Exhaust finds the exhaust of an engine.
func (l *Layout) Exhaust(engine string) (*Exhaust, bool) {
	for i := range l.Exhausts {
		if l.Exhausts[i].Engine == engine {
			return &l.Exhausts[i], true
		}
	}
	return nil, false
}

// Engine finds an engine of the layout by name.
func (l *Layout) Engine(name string) (*Engine, bool) {
	for i := range l.Engines {
		if l.Engines[i].Name == name {
			return &l.Engines[i], true
		}
	}
	return nil, false
}

// Layout finds a layout of the boat by name.
func (b *Boat) Layout(name string) (*Layout, bool) {
	for _, l := range b.Layouts {
		if l.Name == name {
			return l, true
		}
	}
	return nil, false
}

// centre is the middle of a space, m.
func (s *Space) centre() Point {
	return Point{s.At[0] + s.Size[0]/2, s.At[1] + s.Size[1]/2, s.At[2] + s.Size[2]/2}
}

// Diagonal of a space, m.
func (s *Space) Diagonal() float64 { return Distance(Point{}, s.Size, 0) }

// Other gives the far side of a partition seen from one of its spaces.
func (p *Partition) Other(from string) (string, bool) {
	switch from {
	case p.Between[0]:
		return p.Between[1], true
	case p.Between[1]:
		return p.Between[0], true
	}
	return "", false
}

// Label names a partition for a route.
func (p *Partition) Label() string {
	if p.Name != "" {
		return p.Name
	}
	return p.Between[0] + "/" + p.Between[1]
}

// Facings are the outward normals by name, ship's axes.
var Facings = map[string]Point{
	"forward": {1, 0, 0}, "aft": {-1, 0, 0}, "starboard": {0, 1, 0},
	"port": {0, -1, 0}, "up": {0, 0, 1}, "down": {0, 0, -1},
}

// Position gives the centre of a partition: stated, else the middle of the face of its space that
// it looks out of, else the middle of the space. known is false where it was assumed.
func (l *Layout) Position(p *Partition) (at Point, known bool) {
	if p.AtStated {
		return p.At, true
	}
	s, ok := l.Space(p.Between[0])
	if !ok {
		s, ok = l.Space(p.Between[1])
	}
	if !ok || !s.AtStated {
		return at, false
	}
	at = s.centre()
	if n, ok := Facings[p.Facing]; ok {
		for i := range at {
			at[i] += n[i] * s.Size[i] / 2
		}
	}
	return at, false
}

// Distance between two points, m, not less than floor.
func Distance(a, b Point, floor float64) float64 {
	d := math.Sqrt(sq(a[0]-b[0]) + sq(a[1]-b[1]) + sq(a[2]-b[2]))
	return math.Max(d, floor)
}

func sq(x float64) float64 { return x * x }

// HoldsEngine tells whether an engine stands in a space, boxed or not, running or not.
func (l *Layout) HoldsEngine(space string) bool {
	for i := range l.Engines {
		if l.Engines[i].In == space {
			return true
		}
	}
	return false
}

// OnlySets tells whether nothing that runs drives a propeller.
func (l *Layout) OnlySets() bool {
	return !slices.ContainsFunc(l.Engines, func(e Engine) bool { return !e.Stopped && e.LoadLaw() == source.Propeller })
}

// SharedArea is the area of the partitions between two spaces, m2.
func (l *Layout) SharedArea(a, b string) (area float64) {
	for i := range l.Partitions {
		if far, ok := l.Partitions[i].Other(a); ok && far == b {
			area += l.Partitions[i].Area
		}
	}
	return area
}

// Placed tells whether both place and size of a space are stated.
func (s *Space) Placed() bool { return s.AtStated && s.SizeStated }
