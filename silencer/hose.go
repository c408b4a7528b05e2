package silencer

import "hushwake/silencer/wet"

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

func (e *Hose) form() form {
	return form{
		in: e.Bore, out: e.Bore, length: e.Length, outer: e.Bore + 2*e.wall(),
		tube: true, hose: true, make: e.Make, laid: true, rating: e.MaxTemp, rise: e.Rise,
		mass: tubeMass(e.Material, e.usual(), e.Bore, e.wall(), e.Length),
	}
}

func (e *Hose) flow(s *stream) {
	s.duct(duct{
		bore: e.Bore, length: e.Length, wall: e.wall(), rough: s.material.roughness, factor: 1,
		rise: e.Rise, lagging: e.Lagging,
	})
	bends(s, e.Bends, e.Bore)
}

func (e *Hose) sound(c *chain) {
	c.run(e.Bore, e.Length)
	if wallOf(e.Material, e.usual()).yields() {
		c.give(wet.Tube{Bore: e.Bore, Wall: e.wall(), Length: e.Length, Kind: e.Make})
	}
}

func (e *Hose) cuts() []Cut {
	return append(bendCuts(e.Bends, e.Bore), Cut{What: "wet exhaust hose", Bore: e.Bore, Amount: e.Length, Unit: Metres},
		Cut{What: "hose clamp, two each end", Bore: e.Bore, Amount: 4})
}

func (*Hose) usual() string { return rubber }
