package silencer

import (
	"hushwake/silencer/chain"
	"hushwake/silencer/chambers"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
	"hushwake/silencer/wet"
)

// Separator parts gas from water, kind "separator".
type Separator struct {
	Common
	Bore, Height, DrainBore float64 // m
}

// Kind names the element.
func (*Separator) Kind() string { return "separator" }

func (e *Separator) Form() Form {
	return Form{
		Length: e.Height, Outer: e.Bore + 2*liftWall, Tall: e.Height, Silencing: true, Body: e.Bore,
		Mass: vesselMass(e.Material, e.usual(), e.Bore, liftWall, e.Height),
	}
}

func (e *Separator) flow(s *march.Stream) {
	s.Expansion(s.Bore, e.Bore)
	s.Skin(e.Bore, liftWall, e.Lagging)
	s.Drain()
	s.Contraction(e.Bore, s.Bore, true)
}

// sound: an upright vessel with its ports off the axis.
func (e *Separator) sound(c *chain.Chain) {
	head := c.End(c.Bore, 0.5)
	c.Join(head)
	c.Chamber(chambers.Chamber{Medium: head.Medium, Bore: e.Bore, Rooms: []float64{e.Height}, InletBore: c.Bore,
		OutletBore: c.Bore, Mach: head.Mach, Loss: c.Walls()}, false, emptyCeiling)
}

func (e *Separator) model(bore float64) (string, []float64) {
	return "", []float64{e.Bore, e.Height, bore}
}

// WaterSide is all of it.
func (e *Separator) WaterSide() WaterSide {
	return WaterSide{Vessel: true, Separator: &wet.Separator{Bore: e.Bore, Height: e.Height, DrainBore: e.DrainBore}}
}

func (*Separator) usual() string { return loss.Fibreglass }
