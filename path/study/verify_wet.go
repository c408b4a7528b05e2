package study

import (
	"math"

	"hushwake/silencer/wet"
)

// wetChecks are the published values of package wet, SI. Arguments of a two-phase flow: gas kg/s, water
// kg/s, gas density, water density, gas viscosity, water viscosity, surface tension, bore.
var wetChecks = map[string]checkFunc{
	"wet.DriftFlux": flowCheck(func(f wet.Flow) float64 { return f.DriftFlux() }),
	"wet.LockhartMartinelli": flowCheck(func(f wet.Flow) float64 {
		p, _ := f.LockhartMartinelli()
		return p
	}),
	"wet.CarryVelocity":   flowCheck(func(f wet.Flow) float64 { return f.CarryVelocity() }),
	"wet.Wallis":          flowCheck(func(f wet.Flow) float64 { return f.Wallis() }),
	"wet.GasVelocity":     flowCheck(func(f wet.Flow) float64 { return f.GasVelocity() }),
	"wet.WaterVelocity":   flowCheck(func(f wet.Flow) float64 { return f.WaterVelocity() }),
	"wet.HeadHomogeneous": flowCheck(func(f wet.Flow) float64 { return f.HeadPerMetre(f.Homogeneous()) }),
	"wet.HeadMartinelli": flowCheck(func(f wet.Flow) float64 {
		_, a := f.LockhartMartinelli()
		return f.HeadPerMetre(a)
	}),
	"wet.HeadDriftFlux": flowCheck(func(f wet.Flow) float64 { return f.HeadPerMetre(f.DriftFlux()) }),
	"wet.HeadRouhani":   flowCheck(func(f wet.Flow) float64 { return f.HeadPerMetre(f.Rouhani()) }),
	"wet.Local": fixedArgs(9, func(a []float64) (float64, error) {
		f := flowOf(a)
		return f.Local(a[8]), f.Check()
	}),
	"wet.Head":            fixedArgs(2, func(a []float64) (float64, error) { return wet.Head(a[0], a[1]), nil }),
	"wet.SubmergedOutlet": fixedArgs(1, func(a []float64) (float64, error) { return wet.SubmergedOutlet(a[0]), nil }),
	"wet.BoreVolume":      fixedArgs(2, func(a []float64) (float64, error) { return wet.BoreVolume(a[0], a[1]), nil }),
	// riser bore, riser rise, hose bore, hose length
	"wet.ChamberNeeded": fixedArgs(4, func(a []float64) (float64, error) {
		return wet.Chamber{RiserBore: a[0], RiserRise: a[1]}.Drain(a[2], a[3]).Needed(), nil
	}),
	// bore, height, heel in degrees; inlet lip at the top on the low side
	"wet.BelowLip": fixedArgs(3, func(a []float64) (float64, error) {
		c, heel := wet.Chamber{Bore: a[0], Height: a[1]}, a[2]*math.Pi/180
		return c.BelowLip(heel), c.Check(heel)
	}),
	"wet.Heeled":        fixedArgs(3, func(a []float64) (float64, error) { return wet.Heeled(a[0], a[1], a[2]*math.Pi/180), nil }),
	"wet.UsualHoseBore": fixedArgs(1, func(a []float64) (float64, error) { return wet.UsualHoseBore(a[0]) }),
}

var _ = register(wetChecks)

func flowOf(a []float64) wet.Flow {
	return wet.Flow{Gas: a[0], Water: a[1], GasDensity: a[2], WaterDensity: a[3], GasViscosity: a[4], WaterViscous: a[5], Tension: a[6], Bore: a[7]}
}

func flowCheck(pick func(wet.Flow) float64) checkFunc {
	return fixedArgs(8, func(a []float64) (float64, error) {
		f := flowOf(a)
		if err := f.Check(); err != nil {
			return 0, err
		}
		return pick(f), nil
	})
}
