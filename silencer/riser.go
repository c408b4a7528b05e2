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
		in: e.Bore, out: e.Bore, length: e.run(), outer: e.Bore + 2*wet.HoseWall, hose: true, rise: e.Rise,
		mass: tubeMass(e.Material, e.usual(), e.Bore, wet.HoseWall, e.run()),
	}
}

// run is the length along the riser, not shorter than its rise, m.
func (e *Riser) run() float64 { return math.Max(e.Length, e.Rise) }

func (e *Riser) flow(s *stream) {
	s.duct(duct{
		bore: e.Bore, length: e.run(), wall: wet.HoseWall, rough: s.material.roughness, factor: 1,
		rise: e.Rise, lagging: e.Lagging,
	})
}

func (e *Riser) sound(c *chain) {
	c.run(e.Bore, e.run())
	c.plugs(e.Bore, e.run(), e.Rise)
}

// LossSD: the head of two-phase flow in a riser is known within a factor of two.
func (*Riser) LossSD() float64 { return 0.40 }

func (e *Riser) inspect(i *inspection, r Row, _ float64) { i.riser(e.Bore, e.Rise, e.run(), r) }

func (e *Riser) heights(i *inspection, r Row) {
	p := wet.Point{Height: e.TopOverWater, Stated: e.TopStated, OffCentre: i.c.OutletOffset, Heel: i.c.Heel}
	i.wet(r.Name, p.RiserTop())
}

func (*Riser) usual() string { return rubber }
