package verify

import (
	"fmt"

	"hushwake/source/gas"
)

// gasChecks are the published values of package gas. Arguments of the state: air-fuel ratio (0 = air),
// temperature K. Arguments of an injection: air-fuel ratio, gas kg/s and K, water kg/s and K.
var gasChecks = map[string]checkFunc{
	"gas.Density":      stateCheck(func(s gas.State) float64 { return s.Density }),
	"gas.Cp":           stateCheck(func(s gas.State) float64 { return s.Cp }),
	"gas.Gamma":        stateCheck(func(s gas.State) float64 { return s.Gamma }),
	"gas.Viscosity":    stateCheck(func(s gas.State) float64 { return s.Viscosity }),
	"gas.Conductivity": stateCheck(func(s gas.State) float64 { return s.Conductivity }),
	"gas.SoundSpeed":   stateCheck(func(s gas.State) float64 { return s.SoundSpeed }),
	"gas.Prandtl":      stateCheck(func(s gas.State) float64 { return s.Prandtl() }),
	"gas.Enthalpy": fixedArgs(3, func(a []float64) (float64, error) {
		g := gasOf(a[0])
		return g.Enthalpy(a[2]) - g.Enthalpy(a[1]), nil
	}),
	"gas.VapourFraction":             fixedArgs(1, func(a []float64) (float64, error) { return gasOf(a[0]).Fractions()[3], nil }),
	"gas.Constant":                   fixedArgs(1, func(a []float64) (float64, error) { return gasOf(a[0]).Constant(), nil }),
	"gas.SaturationPressure":         fixedArgs(1, func(a []float64) (float64, error) { return gas.SaturationPressure(a[0]), nil }),
	"gas.StoichiometricAirFuelRatio": fixedArgs(0, func([]float64) (float64, error) { return gas.StoichiometricAirFuelRatio, nil }),
	"gas.OutletTemperature":          injectCheck(func(o gas.Injected) float64 { return o.Temperature }),
	"gas.Evaporated":                 injectCheck(func(o gas.Injected) float64 { return o.Evaporated }),
	"gas.OutletVolumeFlow":           injectCheck(func(o gas.Injected) float64 { return o.VolumeFlow }),
	"gas.OutletDensity":              injectCheck(func(o gas.Injected) float64 { return o.Density }),
	"gas.VolumeRatio": fixedArgs(5, func(a []float64) (float64, error) {
		o, err := injected(a)
		if err != nil {
			return 0, err
		}
		return o.VolumeFlow / (a[1] / gasOf(a[0]).At(a[2], gas.Atmosphere).Density), nil
	}),
}

var _ = register(gasChecks)

// fixedArgs refuses a row with another number of arguments than the function takes.
func fixedArgs(n int, f checkFunc) checkFunc {
	return func(args []float64) (float64, error) {
		if len(args) != n {
			return 0, fmt.Errorf("the row has %d arguments, the function takes %d", len(args), n)
		}
		return f(args)
	}
}

func gasOf(ratio float64) gas.Gas {
	if ratio == 0 {
		return gas.Gas{Kind: gas.Air}
	}
	return gas.Gas{Kind: gas.Exhaust, AirFuelRatio: ratio}
}

func stateCheck(pick func(gas.State) float64) checkFunc {
	return fixedArgs(2, func(a []float64) (float64, error) {
		g := gasOf(a[0])
		if err := g.Check(a[1], gas.Atmosphere); err != nil {
			return 0, err
		}
		return pick(g.At(a[1], gas.Atmosphere)), nil
	})
}

func injected(a []float64) (gas.Injected, error) {
	return gas.Inject(gas.Injection{Gas: gasOf(a[0]), GasFlow: a[1], GasTemperature: a[2], Pressure: gas.Atmosphere, WaterFlow: a[3], WaterTemperature: a[4]})
}

func injectCheck(pick func(gas.Injected) float64) checkFunc {
	return fixedArgs(5, func(a []float64) (float64, error) {
		o, err := injected(a)
		if err != nil {
			return 0, err
		}
		return pick(o), nil
	})
}
