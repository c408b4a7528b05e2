package wet

import (
	"fmt"
	"math"
)

// Flow is gas and water together in a bore.
type Flow struct {
	Gas, Water                 float64 // kg/s
	GasDensity, WaterDensity   float64 // kg/m3
	GasViscosity, WaterViscous float64 // Pa s
	Tension                    float64 // N/m
	Bore                       float64 // m
}

// NewFlow fills in sea water for what is not stated. Flows are in kg/s, the gas in kg/m3 and Pa s, the bore in m.
func NewFlow(gas, water, gasDensity, gasViscosity, bore float64) Flow {
	return Flow{Gas: gas, Water: water, GasDensity: gasDensity, GasViscosity: gasViscosity, Bore: bore,
		WaterDensity: WaterDensity, WaterViscous: waterViscosity, Tension: surfaceTension}
}

// Check says whether the models can be asked.
func (f Flow) Check() error {
	switch {
	case !(f.Gas >= 0 && f.Water >= 0 && f.Gas+f.Water > 0):
		return fmt.Errorf("two-phase flow needs gas and water flows of 0 or more and not both 0, got %.3g and %.3g kg/s", f.Gas, f.Water)
	case !(f.GasDensity > 0 && f.WaterDensity > f.GasDensity):
		return fmt.Errorf("two-phase flow needs a gas lighter than the water, got %.3g and %.3g kg/m3", f.GasDensity, f.WaterDensity)
	case !(f.Bore > 0 && f.GasViscosity > 0 && f.WaterViscous > 0 && f.Tension > 0):
		return fmt.Errorf("two-phase flow needs a bore, viscosities and a surface tension above 0")
	}
	return nil
}

// GasVelocity and WaterVelocity are superficial: each phase alone in the bore, m/s.
func (f Flow) GasVelocity() float64 { return f.Gas / f.GasDensity / area(f.Bore) }

// WaterVelocity is the superficial velocity of the water, m/s.
func (f Flow) WaterVelocity() float64 { return f.Water / f.WaterDensity / area(f.Bore) }

// Quality is the mass share of gas.
func (f Flow) Quality() float64 { return f.Gas / (f.Gas + f.Water) }

// Homogeneous is the void fraction with both phases at one speed: a = jg/(jg + jl).
func (f Flow) Homogeneous() float64 {
	g := f.GasVelocity()
	return g / (g + f.WaterVelocity())
}

// DriftFlux is the void fraction of slug and churn flow in a vertical bore (Nicklin, Wilkes and Davidson
// 1962; Zuber and Findlay 1965):
//
//	a = jg/(1.2 (jg + jl) + 0.35 sqrt(g D))
func (f Flow) DriftFlux() float64 {
	g := f.GasVelocity()
	return g / (1.2*(g+f.WaterVelocity()) + 0.35*math.Sqrt(gravity*f.Bore))
}

// Rouhani is the void fraction of Rouhani and Axelsson (1970), vertical form:
//
//	a = x/rg {C0 [x/rg + (1-x)/rl] + 1.18 (1-x) [g s (rl-rg)]^1/4/(G sqrt rl)}^-1
//	C0 = 1 + 0.2 (1-x) (g D)^1/4 sqrt(rl/G)
func (f Flow) Rouhani() float64 {
	x, rg, rl := f.Quality(), f.GasDensity, f.WaterDensity
	flux := (f.Gas + f.Water) / area(f.Bore)
	c0 := 1 + 0.2*(1-x)*math.Pow(gravity*f.Bore, 0.25)*math.Sqrt(rl/flux)
	drift := 1.18 * (1 - x) * math.Pow(gravity*f.Tension*(rl-rg), 0.25) / (flux * math.Sqrt(rl))
	return x / rg / (c0*(x/rg+(1-x)/rl) + drift)
}

// LockhartMartinelli gives the friction per metre (Pa/m) and the void fraction by Lockhart and Martinelli
// (1949) with Chisholm's constant (1967), each phase alone in a smooth bore:
//
//	dp = dp_l (1 + C/X + 1/X^2),  X^2 = dp_l/dp_g,  C = 20, 12, 10, 5,  a = 1 - 1/sqrt(1 + C/X + 1/X^2)
func (f Flow) LockhartMartinelli() (friction, void float64) { return f.Friction().At(f.GasDensity) }

// Friction is that of gas and water in one bore made ready for many densities of the gas: what each phase alone would
// lose hangs on its Reynolds number, which goes with the mass flow.
type Friction struct {
	water, gas float64 // Pa/m alone; of the gas times its density
	chisholm   float64
}

// Friction makes it ready.
func (f Flow) Friction() Friction {
	pl, rel := f.alone(f.WaterVelocity(), f.WaterDensity, f.WaterViscous)
	pg, reg := f.alone(f.GasVelocity(), f.GasDensity, f.GasViscosity)
	return Friction{pl, pg * f.GasDensity, chisholm(rel, reg)}
}

// At gives the friction (Pa/m) and the void fraction where the gas has a density (kg/m3, > 0).
func (f Friction) At(gasDensity float64) (friction, void float64) {
	pg := f.gas / gasDensity
	switch {
	case f.water == 0:
		return pg, 1
	case pg == 0:
		return f.water, 0
	}
	x := math.Sqrt(f.water / pg)
	phi := 1 + f.chisholm/x + 1/(x*x)
	return f.water * phi, 1 - 1/math.Sqrt(phi)
}

// alone is the friction per metre of one phase and its Reynolds number: 64/Re below 2000, 0.184/Re^0.2
// above, the smooth-pipe factors the correlation was fitted with.
func (f Flow) alone(v, density, viscosity float64) (perMetre, re float64) {
	re = density * v * f.Bore / viscosity
	if re == 0 {
		return 0, 0
	}
	factor := 64 / re
	if re >= 2000 {
		factor = 0.184 * math.Pow(re, -0.2)
	}
	return factor / f.Bore * density * v * v / 2, re
}

func chisholm(liquid, gas float64) float64 {
	switch {
	case liquid >= 2000 && gas >= 2000:
		return 20
	case liquid < 2000 && gas >= 2000:
		return 12
	case liquid >= 2000:
		return 10
	}
	return 5
}

// HeadPerMetre is the weight of the mixture per metre of rise for a void fraction, Pa/m.
func (f Flow) HeadPerMetre(void float64) float64 {
	return ((1-void)*f.WaterDensity + void*f.GasDensity) * gravity
}

// Local is the loss of a fitting of K velocity heads in wet flow, Pa, by the momentum density of phases
// that run separately, with the void fraction by drift flux:
//
//	dp = K G^2/(2 r),  1/r = x^2/(a rg) + (1-x)^2/((1-a) rl)
//
// A mixture at one speed would lose several times as much; no measurement on boat hose was found, factor 2.
func (f Flow) Local(k float64) float64 {
	x, a := f.Quality(), f.DriftFlux()
	flux := (f.Gas + f.Water) / area(f.Bore)
	if f.Water == 0 {
		return k * flux * flux / (2 * f.GasDensity)
	}
	specific := (1 - x) * (1 - x) / ((1 - a) * f.WaterDensity)
	if a > 0 {
		specific += x * x / (a * f.GasDensity)
	}
	return k * flux * flux / 2 * specific
}

// CarryVelocity is the gas velocity above which drops are carried up, m/s (Turner, Hubbard and Dukler 1969;
// the same constant as the annular onset of Taitel, Barnea and Dukler 1980):
//
//	v = 3.09 [s g (rl - rg)]^1/4/sqrt(rg)
func (f Flow) CarryVelocity() float64 {
	return 3.09 * math.Pow(f.Tension*gravity*(f.WaterDensity-f.GasDensity), 0.25) / math.Sqrt(f.GasDensity)
}

// Wallis is the dimensionless gas velocity of flooding: j* = jg sqrt(rg/(g D (rl - rg))).
func (f Flow) Wallis() float64 {
	return f.GasVelocity() * math.Sqrt(f.GasDensity/(gravity*f.Bore*(f.WaterDensity-f.GasDensity)))
}

// Regime is how water goes up a riser.
type Regime string

// Regimes by Wallis number: 0.9 carries all up, below 0.5 water falls back between slugs.
const (
	carriesWater Regime = "carries"
	churnsWater  Regime = "churns"
	slugsWater   Regime = "slugs"
	dryPipe      Regime = "dry"
)

// Regime names the way the water goes up: carries from j* 0.9 (or the drop-carrying velocity),
// churns from 0.2, slugs below. The bound between churn and slug is our own choice.
func (f Flow) Regime() Regime {
	j := f.Wallis()
	switch {
	case f.Water == 0:
		return dryPipe
	case j >= 0.9 || f.GasVelocity() >= f.CarryVelocity():
		return carriesWater
	case j >= 0.2:
		return churnsWater
	}
	return slugsWater
}
