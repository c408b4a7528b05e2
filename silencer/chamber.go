package silencer

import "math"

// Tube joins two rooms of a chamber through a baffle.
type Tube struct {
	Bore, Wall    float64 // m
	Before, After float64 // m it stands in the room before and after; 0, 0 is a bare hole
}

// Chamber is an expansion chamber of one or several rooms, kind "chamber".
type Chamber struct {
	Common
	Bore            float64   // m, inside of the shell
	Rooms           []float64 // m, lengths; a plain chamber has one
	Baffle          float64   // m, baffle thickness
	JoinedBy        [][]Tube  // for each baffle, the tubes through it
	InletExtension  float64   // m
	OutletExtension float64   // m
	TubeWall        float64   // m
	InletBore       float64   // m
	OutletBore      float64   // m
	Wall            float64   // m, shell
	// InletOffset and OutletOffset are distances of the ports from the shell's axis, m.
	InletOffset, OutletOffset float64
}

// Kind names the element.
func (*Chamber) Kind() string { return "chamber" }

// length is the inside length of the shell, baffles included, m.
func (e *Chamber) length() float64 {
	n := float64(len(e.Rooms) - 1)
	l := math.Max(n, 0) * e.Baffle
	for _, r := range e.Rooms {
		l += r
	}
	return l
}

func (e *Chamber) form() form {
	wall := orDefault(e.Wall, shellWall)
	return form{
		in: e.InletBore, out: e.OutletBore, length: e.length(), outer: e.Bore + 2*wall,
		silencing: true, body: e.Bore,
		mass: vesselMass(e.Material, e.Bore, wall, e.length()) + e.tubesMass(),
	}
}

func (e *Chamber) tubesMass() float64 {
	wall := orDefault(e.TubeWall, shellWall)
	m := tubeMass(e.Material, steel, e.InletBore, wall, e.InletExtension) +
		tubeMass(e.Material, steel, e.OutletBore, wall, e.OutletExtension)
	for _, tubes := range e.JoinedBy {
		m += density(e.Material, steel) * math.Pi / 4 * e.Bore * e.Bore * e.Baffle
		for _, t := range tubes {
			m += tubeMass(e.Material, steel, t.Bore, orDefault(t.Wall, wall), t.Before+t.After)
		}
	}
	return m
}

// Gas spreads into each room and is drawn together into the next passage.
func (e *Chamber) flow(s *stream) {
	in, out := orDefault(e.InletBore, s.bore), orDefault(e.OutletBore, s.bore)
	s.expansion(in, e.Bore)
	s.duct(duct{
		bore: e.Bore, length: e.length(), wall: orDefault(e.Wall, shellWall), factor: 0, lagging: e.Lagging,
	})
	for _, tubes := range e.JoinedBy {
		bore, reaches := passage(tubes)
		s.contraction(e.Bore, bore, reaches)
		s.expansion(bore, e.Bore)
	}
	s.contraction(e.Bore, out, e.OutletExtension > 0)
}

// passage is the bore of one tube with the area of all, and whether they stand out into the room before.
func passage(tubes []Tube) (bore float64, reaches bool) {
	sum := 0.0
	for _, t := range tubes {
		sum += t.Bore * t.Bore
		reaches = reaches || t.Before > 0
	}
	return math.Sqrt(sum), reaches
}
