package gas

import (
	"errors"
	"fmt"
	"math"
)

// defaultAirFuelRatio stands in where a gas does not state one.
const defaultAirFuelRatio = 25.0

// StoichiometricAirFuelRatio is that of the fuel CH1.85 with dry air (derived).
var StoichiometricAirFuelRatio = oxygenNeed / dryAir[oxygen] * airMass / fuelMass

// Standard pressure and the zero of the Celsius scale.
const (
	Atmosphere = 101325.0 // Pa
	ZeroC      = 273.15   // K
)

const (
	fuelHydrogen = 1.85                        // hydrogen atoms per carbon atom of the fuel
	fuelMass     = 12.011 + fuelHydrogen*1.008 // kg/kmol of carbon
	oxygenNeed   = 1 + fuelHydrogen/4          // kmol O2 per kmol of carbon
	referenceK   = 298.15                      // K, zero of Enthalpy
)

// dryAir is the composition of dry air by volume (US Standard Atmosphere 1976, rounded to close).
var dryAir = [speciesCount]float64{nitrogen: 0.78084, oxygen: 0.20948, carbonDioxide: 0.00034, argon: 0.00934}

var airMass = meanMass(&dryAir)

func meanMass(x *[speciesCount]float64) (m float64) {
	for i := range x {
		m += x[i] * pure[i].mass
	}
	return m
}

// Fractions gives the mole fractions of N2, O2, CO2, H2O and Ar, water vapour added included. The
// fuel burns completely in dry air; a ratio below the stoichiometric one is reckoned as
// stoichiometric, see Rich.
func (g Gas) Fractions() [5]float64 {
	x := dryAir
	if g.Kind == Exhaust {
		air := g.airPerCarbon()
		for i := range x {
			x[i] *= air
		}
		x[oxygen] = max(0, x[oxygen]-oxygenNeed)
		x[carbonDioxide]++
		x[water] += fuelHydrogen / 2
	}
	normalise(&x)
	if g.Vapour != 0 {
		x[water] = max(0, x[water]+g.Vapour*meanMass(&x)/pure[water].mass)
		normalise(&x)
	}
	return x
}

// airPerCarbon is kmol of air per kmol of carbon.
func (g Gas) airPerCarbon() float64 {
	ratio := g.AirFuelRatio
	if ratio <= 0 {
		ratio = defaultAirFuelRatio
	}
	return max(ratio, StoichiometricAirFuelRatio) * fuelMass / airMass
}

func normalise(x *[speciesCount]float64) {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	for i := range x {
		x[i] /= sum
	}
}

// At gives the state at a temperature (K) and absolute pressure (Pa) as an ideal gas:
//
//	rho = p M/(R T)   cp = sum x cp_i / M   gamma = cp/(cp - R/M)   c = sqrt(gamma R T/M)
//
// valid 200-2000 K (see Check). A Stated medium keeps its density and speed of sound and takes the
// other properties from air. A temperature or pressure that is not positive gives the zero State.
func (g Gas) At(temperatureK, pressurePa float64) State {
	if !(temperatureK > 0) || !(pressurePa > 0) || math.IsInf(temperatureK+pressurePa, 0) {
		return State{}
	}
	x := g.Fractions()
	s := mix(&x, temperatureK, pressurePa)
	if g.Kind == Stated {
		s.Density, s.SoundSpeed = g.Density, g.SoundSpeed
	}
	return s
}

func mix(x *[speciesCount]float64, t, p float64) State {
	var heat [speciesCount]float64
	sum := 0.0
	for i := range x {
		heat[i] = pure[i].heat(t)
		sum += x[i] * heat[i]
	}
	r := universal / meanMass(x)
	gamma := sum / (sum - 1)
	mu, k := transport(x, &heat, t)
	return State{Temperature: t, Pressure: p, Density: p / (r * t), Cp: sum * r, Gamma: gamma,
		Viscosity: mu, Conductivity: k, SoundSpeed: math.Sqrt(gamma * r * t)}
}

// Constant is the specific gas constant, J/(kg K).
func (g Gas) Constant() float64 {
	x := g.Fractions()
	return universal / meanMass(&x)
}

// Enthalpy is the sensible enthalpy above 25 C, J/kg.
func (g Gas) Enthalpy(temperatureK float64) float64 {
	x := g.Fractions()
	h := 0.0
	for i := range x {
		if x[i] > 0 {
			h += x[i] * (pure[i].enthalpy(temperatureK) - pure[i].enthalpy(referenceK))
		}
	}
	return h / meanMass(&x)
}

// Moist is the gas with more water vapour (negative: vapour condensed out), kg per kg of the gas before injection.
func (g Gas) Moist(vapour float64) Gas {
	g.Vapour += vapour
	return g
}

// richest is the least air-fuel ratio that still burns well in an engine, kg/kg (common practice).
const richest = 11.0

// Rich tells whether the fuel finds too little air to burn up. The gas is then reckoned as that of the
// stoichiometric ratio: its carbon monoxide and hydrogen are left out, so that its density at the
// air-fuel ratio of 12.5 of a petrol engine at full power is up to 5 % too high (derived).
func (g Gas) Rich() bool {
	return g.Kind == Exhaust && g.AirFuelRatio > 0 && g.AirFuelRatio < StoichiometricAirFuelRatio-0.05
}

// Check says whether the gas and the state asked for lie within the models: 200-2000 K, air-fuel ratio from 11 (see
// Rich) to 5000 (nearly air), a stated medium with a positive density and speed of sound. Temperature is in K, pressure
// in Pa.
func (g Gas) Check(temperatureK, pressurePa float64) error {
	switch {
	case !(temperatureK >= tableFrom && temperatureK <= tableTo):
		return fmt.Errorf("gas at %.4g K lies outside the property model (200 to 2000 K)", temperatureK)
	case !(pressurePa > 0 && pressurePa <= 20e5):
		return fmt.Errorf("gas at %.4g Pa lies outside the ideal-gas model (above 0 to 20 bar)", pressurePa)
	case !(g.Vapour >= -0.2 && g.Vapour <= 10):
		return fmt.Errorf("added water vapour %.3g kg/kg lies outside the mixture model (-0.2, condensed, to 10)", g.Vapour)
	case g.Kind == Stated && !(g.Density > 0 && g.SoundSpeed > 0):
		return errors.New("a stated medium needs a density and a speed of sound above 0")
	case g.Kind == Exhaust:
		return checkRatio(g.AirFuelRatio)
	}
	return nil
}

func checkRatio(ratio float64) error {
	switch {
	case ratio == 0:
		return nil
	case !(ratio > 0 && ratio <= 5000):
		return fmt.Errorf("air-fuel ratio %.3g lies outside the combustion model (%.0f to 5000)", ratio, richest)
	case ratio < richest:
		return fmt.Errorf("air-fuel ratio %.3g is too rich to burn: %.0f or more is possible\nhint: give the overall ratio of air to fuel by mass", ratio, richest)
	}
	return nil
}
