package silencer

import (
	"fmt"
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/wet"
)

// LiftChamber is a water-lift chamber with dip tube and riser, kind "lift_chamber".
type LiftChamber struct {
	Common
	Bore, Height, WaterLevel float64 // m
	DipBore, DipClearance    float64 // m
	RiserBore, RiserRise     float64 // m
	Wall                     float64 // m
}

// Kind names the element.
func (*LiftChamber) Kind() string { return "lift_chamber" }

func (e *LiftChamber) form() form {
	wall := orDefault(e.Wall, liftWall)
	return form{
		out: e.RiserBore, length: e.Height + e.RiserRise, outer: e.Bore + 2*wall, tall: e.Height, body: e.Bore,
		silencing: true, rise: e.RiserRise, mass: vesselMass(e.Material, e.usual(), e.Bore, wall, e.Height),
	}
}

// liftWall is the wall of a moulded water-lift chamber, m, common practice.
const liftWall = 5e-3

// riser is the bore of the riser; that of the line where it is not stated, m.
func (e *LiftChamber) riser(line float64) float64 { return orDefault(e.RiserBore, line) }

// dip is the bore of the tube that leads down into the chamber's water, m.
func (e *LiftChamber) dip(line float64) float64 { return orDefault(e.DipBore, e.riser(line)) }

// gasHeight is the height of the gas space while running: the gas presses the water down to the
// mouth of the dip tube, m.
func (e *LiftChamber) gasHeight() float64 {
	return e.Height - math.Min(e.WaterLevel, orDefault(e.DipClearance, e.WaterLevel))
}

func (e *LiftChamber) flow(s *stream) {
	s.expansion(s.bore, e.Bore)
	s.skin(e.Bore, orDefault(e.Wall, liftWall), e.Lagging)
	dip, riser := e.dip(s.bore), e.riser(s.bore)
	s.contraction(e.Bore, dip, true)
	s.step(dip, riser)
	s.duct(duct{bore: riser, length: e.RiserRise, wall: wet.HoseWall, rough: wallOf("", rubber).roughness, factor: 1, rise: e.RiserRise, lagging: e.Lagging})
}

// sound: the gas space over the water is an expansion chamber in cold gas. The inlet is in the lid; the
// dip tube hangs from it, so sound goes down the ring round the tube, meets what is left of the space
// below its mouth, and comes up the tube and the riser.
func (e *LiftChamber) sound(c *chain) {
	down := e.down()
	dip := e.dip(c.bore)
	outside := dip + 2*liftWall
	ringArea := circle(e.Bore) - circle(outside)
	ring := c.end(e.Bore, 0.2)
	ring.Mach *= ring.Area / ringArea
	ring.Area = ringArea
	c.join(c.end(c.bore, 0))
	c.join(ring)
	d, err := fourpole.NewDuctArea(ring.Medium, ringArea, math.Pi*(e.Bore+outside), down, ring.Mach, c.walls())
	c.add(d, err, ring)
	tube := c.end(dip, 0.2)
	if below := e.gasHeight() - down; below > 0 {
		q, err := fourpole.NewQuarterWave(ring, e.Bore, below, 0, c.walls())
		c.add(q, err, ring)
	}
	c.join(tube)
	if c.stateAt(0).liquid > 0 {
		c.mouth(dip)
		e.tubes(c)
	} else {
		c.stretch(dip, down, 0.2, 0.2)
		c.stretch(e.riser(c.bore), e.RiserRise, 0.3, 1)
	}
	cut, err := fourpole.CutOn(fourpole.FirstDiameter, e.Bore, ring.Medium.SoundSpeed, 0)
	c.trusted(trust{cutOn: cut, first: cut, across: cut, ceiling: liftCeiling, method: plane, why: "first cross mode"})
	if err != nil {
		c.err = err
	}
}

// down is how far sound goes down the ring round the dip tube, m.
func (e *LiftChamber) down() float64 { return math.Max(0.05*e.Height, e.gasHeight()-0.02*e.Height) }

// tubes are dip tube and riser with water in them.
func (e *LiftChamber) tubes(c *chain) {
	dip, riser := e.dip(c.bore), e.riser(c.bore)
	c.wetRun(dip, e.down(), c.friction(dip), 0)
	if e.RiserRise > 0 {
		c.wetRun(riser, e.RiserRise, c.lostInDucts()/e.RiserRise, e.RiserRise)
		c.plugs(riser, e.RiserRise, e.RiserRise)
	}
}

// instead: as long as a plain pipe would be, with tubes and water kept; they are there whatever the chamber does.
func (e *LiftChamber) instead(c *chain) bool {
	if c.stateAt(0).liquid == 0 {
		return false
	}
	c.stretch(c.bore, math.Max(0, e.Height-e.down()), 0, 0)
	e.tubes(c)
	return true
}

// liftCeiling is what a lift chamber is trusted to do above its cut-on, dB; judgement.
const liftCeiling = 12.0

func (e *LiftChamber) check() error {
	switch {
	case !(e.Bore > 0 && e.Height > 0):
		return fmt.Errorf("a lift chamber of %g m bore and %g m height cannot be", e.Bore, e.Height)
	case !(e.WaterLevel >= 0 && e.WaterLevel < e.Height):
		return fmt.Errorf("a water level of %g m leaves no gas space in a height of %g m", e.WaterLevel, e.Height)
	case !(e.RiserRise >= 0):
		return fmt.Errorf("a riser of %g m cannot be", e.RiserRise)
	}
	return nil
}

func (e *LiftChamber) model(bore float64) (string, []float64) {
	return "", []float64{e.Bore, e.gasHeight(), e.dip(bore), e.riser(bore), e.RiserRise + e.riser(bore)/4}
}

// LossSD is that of its riser.
func (*LiftChamber) LossSD() float64 { return 0.40 }

// WaterSide is all of it.
func (e *LiftChamber) WaterSide() WaterSide {
	return WaterSide{Vessel: true, Chamber: &wet.Chamber{Bore: e.Bore, Height: e.Height, WaterLevel: e.WaterLevel, DipClearance: e.DipClearance,
		RiserBore: e.RiserBore, RiserRise: e.RiserRise}}
}

func (*LiftChamber) usual() string { return fibreglass }
