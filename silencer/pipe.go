package silencer

// Pipe is a plain tube, kind "pipe".
type Pipe struct {
	Common
	Bore, Length, Wall float64 // m
	Roughness          float64 // m; 0 = default by material
	Bends              []Bend
}

// Kind names the element.
func (*Pipe) Kind() string { return "pipe" }

func (e *Pipe) form() form {
	wall := orDefault(e.Wall, pipeWall)
	return form{
		in: e.Bore, out: e.Bore, length: e.Length, outer: e.Bore + 2*wall, tube: true,
		mass: tubeMass(e.Material, "", e.Bore, wall, e.Length),
	}
}

func (e *Pipe) flow(s *stream) {
	s.duct(duct{
		bore: e.Bore, length: e.Length, wall: orDefault(e.Wall, pipeWall),
		rough: orDefault(e.Roughness, s.material.roughness), factor: 1, lagging: e.Lagging,
	})
	bends(s, e.Bends, e.Bore)
}

func (e *Pipe) sound(c *chain) { c.run(e.Bore, e.Length) }

func (e *Pipe) cuts() []Cut {
	p := Cut{What: "pipe", Material: e.Material, Bore: e.Bore, Wall: orDefault(e.Wall, pipeWall), Amount: e.Length, Unit: Metres}
	return append(bendCuts(e.Bends, e.Bore), p)
}

func bends(s *stream, list []Bend, bore float64) {
	for _, b := range list {
		s.bend(b.Angle, b.Radius, bore)
	}
}
