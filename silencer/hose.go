package silencer

// Hose is rubber exhaust hose, kind "hose".
type Hose struct {
	Common
	Bore, Length float64 // m
	Rise         float64 // m, negative when it falls towards the outlet
	Bends        []Bend
	MaxTemp      float64 // K the hose is rated for; 0 = not stated
}

const hoseWallThickness = 6e-3 // m, wire-bound rubber, common practice

// Kind names the element.
func (*Hose) Kind() string { return "hose" }

func (e *Hose) form() form {
	return form{
		in: e.Bore, out: e.Bore, length: e.Length, outer: e.Bore + 2*hoseWallThickness, flexible: true, hose: true,
		mass: tubeMass(e.Material, "hose", e.Bore, hoseWallThickness, e.Length),
	}
}

func (e *Hose) flow(s *stream) {
	s.duct(duct{
		bore: e.Bore, length: e.Length, wall: hoseWallThickness, rough: s.stuff.roughness, factor: 1,
		rise: e.Rise, lagging: e.Lagging,
	})
	s.bends(e.Bends, e.Bore)
}

func (e *Hose) sound(c *chain) {
	c.note("the give of the hose's wall is left out")
	c.run(e.Bore, e.Length)
}
