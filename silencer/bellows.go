package silencer

import "hushwake/silencer/loss"

// Bellows is a flexible section, kind "bellows".
type Bellows struct {
	Common
	Bore, Length, Travel float64 // m; Travel is axial +/-, 0 = not stated
}

// Kind names the element.
func (*Bellows) Kind() string { return "bellows" }

func (e *Bellows) form() form {
	wall := 0.5e-3
	return form{
		in: e.Bore, out: e.Bore, length: e.Length, outer: 1.25*e.Bore + 2*wall, tube: true, bellows: true, travel: e.Travel,
		mass: 1.6 * tubeMass(e.Material, e.usual(), e.Bore, 2*wall, e.Length),
	}
}

func (e *Bellows) flow(s *stream) {
	s.duct(duct{
		bore: e.Bore, length: e.Length, wall: 0.5e-3, rough: s.material.roughness,
		factor: loss.BellowsFactor, lagging: e.Lagging,
		note: "2.5 times smooth friction for the corrugations (2 to 3, common practice, no source)",
	})
}

func (e *Bellows) sound(c *chain) { c.run(e.Bore, e.Length) }

func (*Bellows) usual() string { return "stainless 304" }
