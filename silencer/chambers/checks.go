//go:build !js

package chambers

import (
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/source/published"
)

// Checks call chambers and perforated tubes.
var Checks = published.Values{
	"chambers.ModesLoss":        checkModesLoss,
	"chambers.ModesPeak":        checkModesPeak,
	"chambers.PlaneLoss":        checkPlaneLoss,
	"chambers.FlowLoss":         checkFlowLoss,
	"chambers.ChamberRatio":     checkChamberRatio,
	"chambers.PerforatedModes":  perforatedCheck(PerforatedTube.Modes),
	"chambers.PerforatedRadial": perforatedCheck(planeTube(fourpole.FullCorrections)),
	"chambers.PerforatedPlain":  perforatedCheck(planeTube(fourpole.NoCorrections)),
}

// centredChamber reads f, shell bore, length, pipe bore, inlet and outlet extension, tube wall.
func centredChamber(a []float64) Chamber {
	return Chamber{
		Medium: fourpole.StandardAir(), Bore: a[1], Rooms: []float64{a[2]}, InletBore: a[3], OutletBore: a[3],
		InletExtension: a[4], OutletExtension: a[5], TubeWall: a[6],
	}
}

var checkModesLoss = published.Args(7, func(a []float64) (float64, error) {
	c := centredChamber(a)
	p, err := c.Modes()
	if err != nil {
		return 0, err
	}
	return lossAt(p, c.Inlet(), c.Outlet(), a[0]), nil
})

// checkModesPeak climbs from a frequency to the next local maximum on the 25 Hz grid of the reference.
var checkModesPeak = published.Args(7, func(a []float64) (float64, error) {
	c := centredChamber(a)
	p, err := c.Modes()
	if err != nil {
		return 0, err
	}
	at := func(f float64) float64 { return lossAt(p, c.Inlet(), c.Outlet(), f) }
	f := a[0]
	for at(f+25) > at(f) {
		f += 25
	}
	for at(f-25) > at(f) {
		f -= 25
	}
	return f, nil
})

var checkPlaneLoss = published.Args(7, func(a []float64) (float64, error) {
	c := centredChamber(a)
	p, err := c.Plane(fourpole.FullCorrections)
	if err != nil {
		return 0, err
	}
	return lossAt(p, c.Inlet(), c.Outlet(), a[0]), nil
})

// checkFlowLoss reads f, pipe bore, shell bore, length, Mach number.
var checkFlowLoss = published.Args(5, func(a []float64) (float64, error) {
	c := Chamber{
		Medium: fourpole.StandardAir(), Bore: a[2], Rooms: []float64{a[3]}, InletBore: a[1], OutletBore: a[1], Mach: a[4],
	}
	p, err := c.Plane(fourpole.NoCorrections)
	if err != nil {
		return 0, err
	}
	return lossAt(p, c.Inlet(), c.Outlet(), a[0]), nil
})

// checkChamberRatio reads f, area ratio, length, speed of sound.
var checkChamberRatio = published.Args(4, func(a []float64) (float64, error) {
	m := fourpole.StandardAir()
	m.SoundSpeed = a[3]
	c := Chamber{
		Medium: m, Bore: 0.05 * math.Sqrt(a[1]), Rooms: []float64{a[2]}, InletBore: 0.05, OutletBore: 0.05,
	}
	p, err := c.Plane(fourpole.NoCorrections)
	if err != nil {
		return 0, err
	}
	return lossAt(p, c.Inlet(), c.Outlet(), a[0]), nil
})

func planeTube(c fourpole.Corrections) func(PerforatedTube) (fourpole.Piece, error) {
	return func(t PerforatedTube) (fourpole.Piece, error) { return t.Plane(c) }
}

// perforatedCheck reads f, bore, shell bore, length, from, to, porosity, hole, wall, flow resistivity (0 = empty),
// Mach number, speed of sound, density.
func perforatedCheck(solve func(PerforatedTube) (fourpole.Piece, error)) published.Value {
	return published.Args(13, func(a []float64) (float64, error) {
		t := PerforatedTube{
			Medium: fourpole.Medium{SoundSpeed: a[11], Density: a[12]},
			Bore:   a[1], ChamberBore: a[2], Length: a[3], From: a[4], To: a[5], Mach: a[10],
			Wall: fourpole.Perforate{Porosity: a[6], Hole: a[7], Wall: a[8]},
		}
		if a[9] > 0 {
			t.Fill = &Filling{Fibre: fourpole.AllardChampoux, Resistivity: a[9]}
		}
		p, err := solve(t)
		if err != nil {
			return 0, err
		}
		return lossAt(p, t.Inlet(), t.Outlet(), a[0]), nil
	})
}

func lossAt(p fourpole.Piece, up, down fourpole.End, f float64) float64 {
	return p.At(2*math.Pi*f).Between(up, down).TransmissionLoss()
}
