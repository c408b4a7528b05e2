// Package gas describes what is in the pipe: air, exhaust gas, gas with water vapour, or a medium
// stated outright; and heat balances between them. SI units throughout (K, Pa, kg/m3, J/kgK, Pa s, W/mK, m/s).
package gas

// Kind names a medium.
type Kind int

// Kinds of medium.
const (
	Exhaust Kind = iota // lean combustion products of a hydrocarbon fuel
	Air
	Stated // constant density and speed of sound, given by the user
)

// Gas is a medium whose state is asked for at a temperature and pressure.
type Gas struct {
	Kind         Kind
	AirFuelRatio float64 // mass of air per mass of fuel (Exhaust)
	Vapour       float64 // added water vapour, kg per kg of the gas before injection; negative = condensed out
	SoundSpeed   float64 // m/s (Stated)
	Density      float64 // kg/m3 (Stated)
}

// State is a medium at one temperature and pressure.
type State struct {
	Temperature  float64 // K
	Pressure     float64 // Pa, absolute
	Density      float64 // kg/m3
	Cp           float64 // J/(kg K)
	Gamma        float64 // ratio of specific heats
	Viscosity    float64 // Pa s
	Conductivity float64 // W/(m K)
	SoundSpeed   float64 // m/s
}

// Prandtl is the Prandtl number mu cp / k.
func (s State) Prandtl() float64 { return s.Viscosity * s.Cp / s.Conductivity }
