//go:build !js

package gas

import (
	"hushwake/source/published"
)

// Checks are the published values of package gas. Arguments of the state: air-fuel ratio (0 = air),
// temperature K. Arguments of an injection: air-fuel ratio, gas kg/s and K, water kg/s and K.
var Checks = published.Values{
	"gas.Density":      stateCheck(func(s State) float64 { return s.Density }),
	"gas.Cp":           stateCheck(func(s State) float64 { return s.Cp }),
	"gas.Gamma":        stateCheck(func(s State) float64 { return s.Gamma }),
	"gas.Viscosity":    stateCheck(func(s State) float64 { return s.Viscosity }),
	"gas.Conductivity": stateCheck(func(s State) float64 { return s.Conductivity }),
	"gas.SoundSpeed":   stateCheck(func(s State) float64 { return s.SoundSpeed }),
	"gas.Prandtl":      stateCheck(func(s State) float64 { return s.Prandtl() }),
	"gas.Enthalpy": published.Args(3, func(a []float64) (float64, error) {
		g := gasOf(a[0])
		return g.Enthalpy(a[2]) - g.Enthalpy(a[1]), nil
	}),
	"gas.VapourFraction":             published.Args(1, func(a []float64) (float64, error) { return gasOf(a[0]).Fractions()[3], nil }),
	"gas.Constant":                   published.Args(1, func(a []float64) (float64, error) { return gasOf(a[0]).Constant(), nil }),
	"gas.saturationPressure":         published.Args(1, func(a []float64) (float64, error) { return saturationPressure(a[0]), nil }),
	"gas.StoichiometricAirFuelRatio": published.Args(0, func([]float64) (float64, error) { return StoichiometricAirFuelRatio, nil }),
	"gas.OutletTemperature":          injectCheck(func(o Injected) float64 { return o.Temperature }),
	"gas.Evaporated":                 injectCheck(func(o Injected) float64 { return o.Evaporated }),
	"gas.OutletVolumeFlow":           injectCheck(func(o Injected) float64 { return o.VolumeFlow }),
	"gas.OutletDensity":              injectCheck(func(o Injected) float64 { return o.Density }),
	"gas.VolumeRatio": published.Args(5, func(a []float64) (float64, error) {
		o, err := injected(a)
		if err != nil {
			return 0, err
		}
		return o.VolumeFlow / (a[1] / gasOf(a[0]).At(a[2], Atmosphere).Density), nil
	}),
}

func gasOf(ratio float64) Gas {
	if ratio == 0 {
		return Gas{Kind: Air}
	}
	return Gas{Kind: Exhaust, AirFuelRatio: ratio}
}

func stateCheck(pick func(State) float64) published.Value {
	return published.Args(2, func(a []float64) (float64, error) {
		g := gasOf(a[0])
		if err := g.Check(a[1], Atmosphere); err != nil {
			return 0, err
		}
		return pick(g.At(a[1], Atmosphere)), nil
	})
}

func injected(a []float64) (Injected, error) {
	return Inject(Injection{Gas: gasOf(a[0]), GasFlow: a[1], GasTemperature: a[2], Pressure: Atmosphere, WaterFlow: a[3], WaterTemperature: a[4]})
}

func injectCheck(pick func(Injected) float64) published.Value {
	return published.Args(5, func(a []float64) (float64, error) {
		o, err := injected(a)
		if err != nil {
			return 0, err
		}
		return pick(o), nil
	})
}
