//go:build !js

package wet

import (
	"math"

	"hushwake/source/published"
)

// Checks are the published values of package wet, SI. Arguments of a two-phase flow: gas kg/s, water
// kg/s, gas density, water density, gas viscosity, water viscosity, surface tension, bore.
var Checks = published.Values{
	"wet.DriftFlux": flowCheck(func(f Flow) float64 { return f.DriftFlux() }),
	"wet.LockhartMartinelli": flowCheck(func(f Flow) float64 {
		p, _ := f.LockhartMartinelli()
		return p
	}),
	"wet.CarryVelocity":   flowCheck(func(f Flow) float64 { return f.CarryVelocity() }),
	"wet.Wallis":          flowCheck(func(f Flow) float64 { return f.Wallis() }),
	"wet.GasVelocity":     flowCheck(func(f Flow) float64 { return f.GasVelocity() }),
	"wet.WaterVelocity":   flowCheck(func(f Flow) float64 { return f.WaterVelocity() }),
	"wet.HeadHomogeneous": flowCheck(func(f Flow) float64 { return f.HeadPerMetre(f.Homogeneous()) }),
	"wet.HeadMartinelli": flowCheck(func(f Flow) float64 {
		_, a := f.LockhartMartinelli()
		return f.HeadPerMetre(a)
	}),
	"wet.HeadDriftFlux": flowCheck(func(f Flow) float64 { return f.HeadPerMetre(f.DriftFlux()) }),
	"wet.HeadRouhani":   flowCheck(func(f Flow) float64 { return f.HeadPerMetre(f.Rouhani()) }),
	"wet.Local": published.Args(9, func(a []float64) (float64, error) {
		f := flowOf(a)
		return f.Local(a[8]), f.Check()
	}),
	"wet.waterHead":       published.Args(2, func(a []float64) (float64, error) { return waterHead(a[0], a[1]), nil }),
	"wet.SubmergedOutlet": published.Args(1, func(a []float64) (float64, error) { return SubmergedOutlet(a[0]), nil }),
	"wet.boreVolume":      published.Args(2, func(a []float64) (float64, error) { return boreVolume(a[0], a[1]), nil }),
	// riser bore, riser rise, hose bore, hose length
	"wet.ChamberNeeded": published.Args(4, func(a []float64) (float64, error) {
		return Chamber{RiserBore: a[0], RiserRise: a[1]}.Drain(a[2], a[3]).Needed(), nil
	}),
	// bore, height, heel in degrees; inlet lip at the top on the low side
	"wet.BelowLip": published.Args(3, func(a []float64) (float64, error) {
		c, heel := Chamber{Bore: a[0], Height: a[1]}, a[2]*math.Pi/180
		return c.BelowLip(heel), c.Check(heel)
	}),
	"wet.Heeled":        published.Args(3, func(a []float64) (float64, error) { return Heeled(a[0], a[1], a[2]*math.Pi/180), nil }),
	"wet.Entrained":     flowCheck(func(f Flow) float64 { return f.Entrained() }),
	"wet.DropSize":      flowCheck(func(f Flow) float64 { return f.DropSize() }),
	"wet.PlugMass":      flowCheck(func(f Flow) float64 { return f.PlugMass() }),
	"wet.DropClass":     published.Args(2, func(a []float64) (float64, error) { return Sizes(a[0])[int(a[1])-1], nil }),
	"wet.plugLoss":      published.Args(3, func(a []float64) (float64, error) { return plugLoss(a[0], a[1], a[2]), nil }),
	"wet.Bubble":        published.Args(1, func(a []float64) (float64, error) { return Mouth{Gas: a[0]}.Bubble(), nil }),
	"wet.HoseStiffness": published.Args(3, func(a []float64) (float64, error) { return Tube{Bore: a[0], Wall: a[1]}.Stiffness(a[2]), nil }),
	"wet.HoseRing":      published.Args(2, func(a []float64) (float64, error) { return Tube{Bore: a[0], Wall: a[1]}.Ring(), nil }),
	// bore, wall, length, gas density, speed of sound, octave 1 to 9
	"wet.HoseWall": published.Args(6, func(a []float64) (float64, error) {
		t := Tube{Bore: a[0], Wall: a[1], Length: a[2]}
		var w WallTake
		w.Add(t, a[3], a[4])
		loss, _ := w.Loss()
		return loss[int(a[5])-1], t.Check()
	}),
}

func flowOf(a []float64) Flow {
	return Flow{Gas: a[0], Water: a[1], GasDensity: a[2], WaterDensity: a[3], GasViscosity: a[4], WaterViscous: a[5], Tension: a[6], Bore: a[7]}
}

func flowCheck(pick func(Flow) float64) published.Value {
	return published.Args(8, func(a []float64) (float64, error) {
		f := flowOf(a)
		if err := f.Check(); err != nil {
			return 0, err
		}
		return pick(f), nil
	})
}
