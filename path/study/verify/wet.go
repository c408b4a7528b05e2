package verify

import (
	"math"
	"math/cmplx"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/wet"
	"hushwake/source/gas"
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
	"wet.Entrained":     flowCheck(func(f wet.Flow) float64 { return f.Entrained() }),
	"wet.DropSize":      flowCheck(func(f wet.Flow) float64 { return f.DropSize() }),
	"wet.PlugMass":      flowCheck(func(f wet.Flow) float64 { return f.PlugMass() }),
	"wet.DropClass":     fixedArgs(2, func(a []float64) (float64, error) { return wet.Sizes(a[0])[int(a[1])-1], nil }),
	"wet.Plug":          fixedArgs(3, func(a []float64) (float64, error) { return wet.Plug(a[0], a[1], a[2]), nil }),
	"wet.Bubble":        fixedArgs(1, func(a []float64) (float64, error) { return wet.Mouth{Gas: a[0]}.Bubble(), nil }),
	"wet.HoseStiffness": fixedArgs(3, func(a []float64) (float64, error) { return wet.Tube{Bore: a[0], Wall: a[1]}.Stiffness(a[2]), nil }),
	"wet.HoseRing":      fixedArgs(2, func(a []float64) (float64, error) { return wet.Tube{Bore: a[0], Wall: a[1]}.Ring(), nil }),
	// bore, wall, length, gas density, speed of sound, octave 1 to 9
	"wet.HoseWall": fixedArgs(6, func(a []float64) (float64, error) {
		t := wet.Tube{Bore: a[0], Wall: a[1], Length: a[2]}
		var w wet.WallTake
		w.Add(t, a[3], a[4])
		loss, _ := w.Loss()
		return loss[int(a[5])-1], t.Check()
	}),
	// loading, Sauter mean diameter, frequency; five classes in exhaust saturated at 45 C, dB/m
	"wet.Spray": fixedArgs(3, func(a []float64) (float64, error) {
		var classes []gas.Class
		for _, d := range wet.Sizes(a[1]) {
			classes = append(classes, gas.Class{Loading: a[0] / 5, Diameter: d})
		}
		s, err := gas.NewSpray(wetGas, classes)
		if err != nil {
			return 0, err
		}
		return wetLine(fourpole.Run{Drops: s}, a[2])
	}),
	// resistance per metre, frequency; nothing else, dB/m
	"wet.Drag": fixedArgs(2, func(a []float64) (float64, error) {
		return wetLine(fourpole.Run{Drag: fourpole.Drag{Resistance: a[0]}}, a[1])
	}),
}

var _ = register(wetChecks)

// wetGas is exhaust saturated at 45 C.
var wetGas = gas.Droplets{Density: wet.WaterDensity, Heat: wet.WaterHeat, Vapour: .0572, DryMass: 29.79, Gas: gas.State{Temperature: 318.11,
	Density: 1.1181, SoundSpeed: 356.71, Gamma: 1.3812, Cp: 1049.2, Viscosity: 1.8221e-5, Conductivity: .027725, Pressure: 1.1181 * 356.71 * 356.71 / 1.3812}}

// wetLine is the decay of a run of 102 mm in that gas without walls, dB/m.
func wetLine(r fourpole.Run, hz float64) (float64, error) {
	g := wetGas.Gas
	r.End = fourpole.PipeEnd(fourpole.Medium{SoundSpeed: g.SoundSpeed, Density: g.Density, Gamma: g.Gamma}, .102, 0)
	r.Bore, r.Length = .102, 1e-5
	l, err := fourpole.NewLine(r)
	if err != nil {
		return 0, err
	}
	m := l.At(2 * math.Pi * hz)
	return 8.6859e5 * math.Abs(real(cmplx.Sqrt(m.T12*m.T21))), nil // sinh G l of a short line
}

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
