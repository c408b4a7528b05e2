package silencer

import (
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
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

func (e *Riser) Form() Form {
	return Form{
		In: e.Bore, Out: e.Bore, Length: e.Run(), Outer: e.Bore + 2*wet.HoseWall, Hose: true, Rise: e.Rise,
		Mass: tubeMass(e.Material, e.usual(), e.Bore, wet.HoseWall, e.Run()),
	}
}

// Run is the length along the riser, not shorter than its rise, m.
func (e *Riser) Run() float64 { return math.Max(e.Length, e.Rise) }

func (e *Riser) flow(s *march.Stream) {
	s.Duct(march.Duct{
		Bore: e.Bore, Length: e.Run(), Wall: wet.HoseWall, Rough: s.Material.Roughness, Factor: 1,
		Rise: e.Rise, Lagging: e.Lagging,
	})
}

func (e *Riser) sound(c *chain.Chain) {
	c.Run(e.Bore, e.Run())
	c.Plugs(e.Bore, e.Run(), e.Rise)
}

// LossSD: the head of two-phase flow in a riser is known within a factor of two.
func (*Riser) LossSD() float64 { return 0.40 }

// WaterSide is itself.
func (e *Riser) WaterSide() WaterSide { return WaterSide{Riser: e} }

func (*Riser) usual() string { return loss.Rubber }
