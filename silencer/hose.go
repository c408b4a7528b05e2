package silencer

import (
	"hushwake/silencer/chain"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
	"hushwake/silencer/wet"
)

// Hose is rubber exhaust hose, kind "hose".
type Hose struct {
	Common
	Bore, Length float64 // m
	Rise         float64 // m, negative when it falls towards the outlet
	Bends        []Bend
	MaxTemp      float64 // K the hose is rated for; 0 = not stated
	Wall         float64 // m; 0 = usual
	Make         wet.HoseKind
}

// Kind names the element.
func (*Hose) Kind() string { return "hose" }

// wall is the thickness of its wall, m.
func (e *Hose) wall() float64 { return orDefault(e.Wall, wet.HoseWall) }

func (e *Hose) Form() Form {
	return Form{
		In: e.Bore, Out: e.Bore, Length: e.Length, Outer: e.Bore + 2*e.wall(),
		Tube: true, Hose: true, Make: e.Make, Laid: true, Rating: e.MaxTemp, Rise: e.Rise,
		Mass: tubeMass(e.Material, e.usual(), e.Bore, e.wall(), e.Length),
	}
}

func (e *Hose) flow(s *march.Stream) {
	s.Duct(march.Duct{
		Bore: e.Bore, Length: e.Length, Wall: e.wall(), Rough: s.Material.Roughness, Factor: 1,
		Rise: e.Rise, Lagging: e.Lagging,
	})
	bends(s, e.Bends, e.Bore)
}

func (e *Hose) sound(c *chain.Chain) {
	c.Run(e.Bore, e.Length)
	if loss.MaterialOf(e.Material, e.usual()).Yields() {
		c.Give(wet.Tube{Bore: e.Bore, Wall: e.wall(), Length: e.Length, Kind: e.Make})
	}
}

func (e *Hose) cuts() []Cut {
	return append(bendCuts(e.Bends, e.Bore), Cut{What: "wet exhaust hose", Bore: e.Bore, Amount: e.Length, Unit: Metres},
		Cut{What: "hose clamp, two each end", Bore: e.Bore, Amount: 4})
}

func (*Hose) usual() string { return loss.Rubber }
