package silencer

import (
	"math"

	"hushwake/silencer/wet"
)

// Riser is a rising wet run, kind "riser".
type Riser struct {
	Common
	Bore, Rise, Length, TopOverWater float64 // m
	TopStated                        bool
}

// Kind names the element.
func (*Riser) Kind() string { return "riser" }

func (e *Riser) form() form {
	return form{
		in: e.Bore, out: e.Bore, length: e.Run(), outer: e.Bore + 2*wet.HoseWall, hose: true, rise: e.Rise,
		mass: tubeMass(e.Material, e.usual(), e.Bore, wet.HoseWall, e.Run()),
	}
}

// Run is the length along the riser, not shorter than its rise, m.
func (e *Riser) Run() float64 { return math.Max(e.Length, e.Rise) }

func (e *Riser) flow(s *stream) {
	s.duct(duct{
		bore: e.Bore, length: e.Run(), wall: wet.HoseWall, rough: s.material.roughness, factor: 1,
		rise: e.Rise, lagging: e.Lagging,
	})
}

func (e *Riser) sound(c *chain) {
	c.run(e.Bore, e.Run())
	c.plugs(e.Bore, e.Run(), e.Rise)
}

// LossSD: the head of two-phase flow in a riser is known within a factor of two.
func (*Riser) LossSD() float64 { return 0.40 }

// WaterSide is itself.
func (e *Riser) WaterSide() WaterSide { return WaterSide{Riser: e} }

func (*Riser) usual() string { return rubber }
