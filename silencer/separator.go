package silencer

import (
	"hushwake/silencer/chambers"
	"hushwake/silencer/wet"
)

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
		mass: vesselMass(e.Material, e.usual(), e.Bore, liftWall, e.Height),
	}
}

func (e *Separator) flow(s *stream) {
	s.expansion(s.bore, e.Bore)
	s.skin(e.Bore, liftWall, e.Lagging)
	s.drain()
	s.contraction(e.Bore, s.bore, true)
}

// sound: an upright vessel with its ports off the axis.
func (e *Separator) sound(c *chain) {
	head := c.end(c.bore, 0.5)
	c.join(head)
	c.chamber(chambers.Chamber{Medium: head.Medium, Bore: e.Bore, Rooms: []float64{e.Height}, InletBore: c.bore,
		OutletBore: c.bore, Mach: head.Mach, Loss: c.walls()}, false, emptyCeiling)
}

func (e *Separator) model(bore float64) (string, []float64) {
	return "", []float64{e.Bore, e.Height, bore}
}

// WaterSide is all of it.
func (e *Separator) WaterSide() WaterSide {
	return WaterSide{Vessel: true, Separator: &wet.Separator{Bore: e.Bore, Height: e.Height, DrainBore: e.DrainBore}}
}

func (*Separator) usual() string { return fibreglass }
