package silencer

import (
	"hushwake/silencer/chain"
	"hushwake/silencer/march"
)

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

func (e *Elbow) Form() Form {
	return Form{
		In: e.Bore, Out: e.Bore, Length: e.arc(), Outer: e.Bore + 2*pipeWall, Tube: true,
		Mass: tubeMass(e.Material, "", e.Bore, pipeWall, e.arc()),
	}
}

// The loss coefficient of a bend holds its friction, so the duct itself is smooth.
func (e *Elbow) flow(s *march.Stream) {
	s.Duct(march.Duct{Bore: e.Bore, Length: e.arc(), Wall: pipeWall, Factor: 0, Lagging: e.Lagging})
	s.Bend(e.Angle, orDefault(e.Radius, 1.5*e.Bore), e.Bore)
}

func (e *Elbow) sound(c *chain.Chain) { c.Run(e.Bore, e.arc()) }

func (e *Elbow) cuts() []Cut { return bendCuts([]Bend{{Angle: e.Angle, Radius: e.Radius}}, e.Bore) }
