package silencer

import (
	"fmt"
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
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

func (e *LiftChamber) Form() Form {
	wall := orDefault(e.Wall, liftWall)
	return Form{
		Out: e.RiserBore, Length: e.Height + e.RiserRise, Outer: e.Bore + 2*wall, Tall: e.Height, Body: e.Bore,
		Silencing: true, Rise: e.RiserRise, Mass: vesselMass(e.Material, e.usual(), e.Bore, wall, e.Height),
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

func (e *LiftChamber) flow(s *march.Stream) {
	s.Expansion(s.Bore, e.Bore)
	s.Skin(e.Bore, orDefault(e.Wall, liftWall), e.Lagging)
	dip, riser := e.dip(s.Bore), e.riser(s.Bore)
	s.Contraction(e.Bore, dip, true)
	s.Step(dip, riser)
	s.Duct(march.Duct{Bore: riser, Length: e.RiserRise, Wall: wet.HoseWall, Rough: loss.MaterialOf("", loss.Rubber).Roughness, Factor: 1, Rise: e.RiserRise, Lagging: e.Lagging})
}

// sound: the gas space over the water is an expansion chamber in cold gas. The inlet is in the lid; the
// dip tube hangs from it, so sound goes down the ring round the tube, meets what is left of the space
// below its mouth, and comes up the tube and the riser.
func (e *LiftChamber) sound(c *chain.Chain) {
	down := e.down()
	dip := e.dip(c.Bore)
	outside := dip + 2*liftWall
	ringArea := circle(e.Bore) - circle(outside)
	ring := c.End(e.Bore, 0.2)
	ring.Mach *= ring.Area / ringArea
	ring.Area = ringArea
	c.Join(c.End(c.Bore, 0))
	c.Join(ring)
	d, err := fourpole.NewDuctArea(ring.Medium, ringArea, math.Pi*(e.Bore+outside), down, ring.Mach, c.Walls())
	c.Add(d, err, ring)
	tube := c.End(dip, 0.2)
	if below := e.gasHeight() - down; below > 0 {
		q, err := fourpole.NewQuarterWave(ring, e.Bore, below, 0, c.Walls())
		c.Add(q, err, ring)
	}
	c.Join(tube)
	if c.StateAt(0).Liquid > 0 {
		c.Mouth(dip)
		e.tubes(c)
	} else {
		c.Stretch(dip, down, 0.2, 0.2)
		c.Stretch(e.riser(c.Bore), e.RiserRise, 0.3, 1)
	}
	cut, err := fourpole.CutOn(fourpole.FirstDiameter, e.Bore, ring.Medium.SoundSpeed, 0)
	c.Trusted(chain.Trust{CutOn: cut, First: cut, Across: cut, Ceiling: liftCeiling, Method: chain.Plane, Why: "first cross mode"})
	if err != nil {
		c.Err = err
	}
}

// down is how far sound goes down the ring round the dip tube, m.
func (e *LiftChamber) down() float64 { return math.Max(0.05*e.Height, e.gasHeight()-0.02*e.Height) }

// tubes are dip tube and riser with water in them.
func (e *LiftChamber) tubes(c *chain.Chain) {
	dip, riser := e.dip(c.Bore), e.riser(c.Bore)
	c.WetRun(dip, e.down(), c.Friction(dip), 0)
	if e.RiserRise > 0 {
		c.WetRun(riser, e.RiserRise, c.LostInDucts()/e.RiserRise, e.RiserRise)
		c.Plugs(riser, e.RiserRise, e.RiserRise)
	}
}

// instead: as long as a plain pipe would be, with tubes and water kept; they are there whatever the chamber does.
func (e *LiftChamber) instead(c *chain.Chain) bool {
	if c.StateAt(0).Liquid == 0 {
		return false
	}
	c.Stretch(c.Bore, math.Max(0, e.Height-e.down()), 0, 0)
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

func (*LiftChamber) usual() string { return loss.Fibreglass }
