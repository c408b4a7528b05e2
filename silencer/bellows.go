package silencer

import (
	"hushwake/silencer/chain"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
)

// Bellows is a flexible section, kind "bellows".
type Bellows struct {
	Common
	Bore, Length, Travel float64 // m; Travel is axial +/-, 0 = not stated
}

// Kind names the element.
func (*Bellows) Kind() string { return "bellows" }

func (e *Bellows) Form() Form {
	wall := 0.5e-3
	return Form{
		In: e.Bore, Out: e.Bore, Length: e.Length, Outer: 1.25*e.Bore + 2*wall, Tube: true, Bellows: true, Travel: e.Travel,
		Mass: 1.6 * tubeMass(e.Material, e.usual(), e.Bore, 2*wall, e.Length),
	}
}

func (e *Bellows) flow(s *march.Stream) {
	s.Duct(march.Duct{
		Bore: e.Bore, Length: e.Length, Wall: 0.5e-3, Rough: s.Material.Roughness,
		Factor: loss.BellowsFactor, Lagging: e.Lagging,
		Note: "2.5 times smooth friction for the corrugations (2 to 3, common practice, no source)",
	})
}

func (e *Bellows) sound(c *chain.Chain) { c.Run(e.Bore, e.Length) }

func (*Bellows) usual() string { return "stainless 304" }
