package silencer

import "math"

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
		silencing: true, mass: vesselMass(e.Material, e.Bore, wall, e.Height),
	}
}

// liftWall is the wall of a moulded water-lift chamber, m, common practice.
const liftWall = 5e-3

// dip is the bore of the tube that leads down into the chamber's water, m.
func (e *LiftChamber) dip() float64 { return orDefault(e.DipBore, e.RiserBore) }

// gasHeight is the height of the gas space while running: the gas presses the water down to the
// mouth of the dip tube, m.
func (e *LiftChamber) gasHeight() float64 {
	return e.Height - math.Min(e.WaterLevel, orDefault(e.DipClearance, e.WaterLevel))
}

func (e *LiftChamber) flow(s *stream) {
	s.expansion(s.bore, e.Bore)
	s.contraction(e.Bore, e.dip(), true)
	s.step(e.dip(), e.RiserBore)
	s.duct(duct{bore: e.RiserBore, length: e.RiserRise, wall: hoseWall, rough: rubber.roughness, factor: 1, rise: e.RiserRise})
}
