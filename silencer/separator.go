package silencer

// Separator parts gas from water, kind "separator".
type Separator struct {
	Common
	Bore, Height, DrainBore float64 // m
}

// Kind names the element.
func (*Separator) Kind() string { return "separator" }

func (e *Separator) form() form {
	return form{
		length: e.Height, outer: e.Bore + 2*liftWall, tall: e.Height, silencing: true, body: e.Bore,
		mass: vesselMass(e.Material, e.Bore, liftWall, e.Height),
	}
}

func (e *Separator) flow(s *stream) {
	s.expansion(s.bore, e.Bore)
	s.drain()
	s.contraction(e.Bore, s.bore, true)
}
