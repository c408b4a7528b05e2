package silencer

// Elbow is a bend on its own, kind "elbow".
type Elbow struct {
	Common
	Bore  float64 // m
	Angle float64 // rad
	// Radius is the centreline radius, m; 0 = not stated (r/D 1.5 assumed by the decoder).
	Radius float64
}

// Kind names the element.
func (*Elbow) Kind() string { return "elbow" }

// arc is the length along the centreline, m.
func (e *Elbow) arc() float64 { return e.Angle * orDefault(e.Radius, 1.5*e.Bore) }

func (e *Elbow) form() form {
	return form{
		in: e.Bore, out: e.Bore, length: e.arc(), outer: e.Bore + 2*pipeWall, tube: true,
		mass: tubeMass(e.Material, "", e.Bore, pipeWall, e.arc()),
	}
}

// The loss coefficient of a bend holds its friction, so the duct itself is smooth.
func (e *Elbow) flow(s *stream) {
	s.duct(duct{bore: e.Bore, length: e.arc(), wall: pipeWall, factor: 0, lagging: e.Lagging})
	s.bend(e.Angle, orDefault(e.Radius, 1.5*e.Bore), e.Bore)
}

func (e *Elbow) sound(c *chain) { c.run(e.Bore, e.arc()) }

func (e *Elbow) cuts() []Cut { return bendCuts([]Bend{{Angle: e.Angle, Radius: e.Radius}}, e.Bore) }
