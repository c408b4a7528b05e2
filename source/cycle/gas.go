package cycle

import "math"

// The working gas: R = 287 J/(kg K) and a ratio of specific heats that falls with temperature,
//
//	gamma(T) = 1.39 - 9.8e-5 (T - 300 K), not under 1.275
//
// within 0.015 of the products of air-fuel ratio 28 by package gas, 300 to 2000 K, and within 0.03
// of air up to 1200 K. Internal energy is its exact integral, so that energy balances
// to rounding.
const (
	gasConstant = 287.0
	slope       = 9.8e-5
	coldExcess  = 0.39  // gamma - 1 at 300 K
	hotExcess   = 0.275 // gamma - 1 from hotFrom up
	hotFrom     = 300 + (coldExcess-hotExcess)/slope
)

// gammaAt is the ratio of specific heats at a temperature in K.
func gammaAt(t float64) float64 {
	if t >= hotFrom {
		return 1 + hotExcess
	}
	return 1 + coldExcess - slope*(t-300)
}

var hotEnergy = gasConstant / slope * math.Log(coldExcess/hotExcess)

// energyAt is the internal energy in J/kg above 300 K, the integral of R/(gamma-1).
func energyAt(t float64) float64 {
	if t >= hotFrom {
		return hotEnergy + gasConstant/hotExcess*(t-hotFrom)
	}
	return -gasConstant / slope * math.Log(1-slope*(t-300)/coldExcess)
}

// temperatureAt inverts energyAt.
func temperatureAt(u float64) float64 {
	if u >= hotEnergy {
		return hotFrom + (u-hotEnergy)*hotExcess/gasConstant
	}
	return 300 + coldExcess/slope*(1-math.Exp(-u*slope/gasConstant))
}

// enthalpyAt is the enthalpy in J/kg, u + R T.
func enthalpyAt(t float64) float64 { return energyAt(t) + gasConstant*t }
