package silencer

import (
	"hushwake/silencer/chain"
	"hushwake/silencer/march"
)

// Pipe is a plain tube, kind "pipe".
type Pipe struct {
	Common
	Bore, Length, Wall float64 // m
	Roughness          float64 // m; 0 = default by material
	Bends              []Bend
}

// Kind names the element.
func (*Pipe) Kind() string { return "pipe" }

func (e *Pipe) Form() Form {
	wall := orDefault(e.Wall, pipeWall)
	return Form{
		In: e.Bore, Out: e.Bore, Length: e.Length, Outer: e.Bore + 2*wall, Tube: true,
		Mass: tubeMass(e.Material, "", e.Bore, wall, e.Length),
	}
}

func (e *Pipe) flow(s *march.Stream) {
	s.Duct(march.Duct{
		Bore: e.Bore, Length: e.Length, Wall: orDefault(e.Wall, pipeWall),
		Rough: orDefault(e.Roughness, s.Material.Roughness), Factor: 1, Lagging: e.Lagging,
	})
	bends(s, e.Bends, e.Bore)
}

func (e *Pipe) sound(c *chain.Chain) { c.Run(e.Bore, e.Length) }

func (e *Pipe) cuts() []Cut {
	p := Cut{What: "pipe", Material: e.Material, Bore: e.Bore, Wall: orDefault(e.Wall, pipeWall), Amount: e.Length, Unit: Metres}
	return append(bendCuts(e.Bends, e.Bore), p)
}

func bends(s *march.Stream, list []Bend, bore float64) {
	for _, b := range list {
		s.Bend(b.Angle, b.Radius, bore)
	}
}
