package gas

import (
	"fmt"
	"math"
)

// Dilute is the most of the volume that drops may fill, as a share.
const Dilute = 0.05

// Droplets is a spray of equal drops in gas: what it does to sound. Most injected water runs along the wall as
// a film; Spray takes drops of several sizes.
type Droplets struct {
	Gas        State
	Loading    float64 // mass of drops per mass of gas
	Diameter   float64 // m
	Density    float64 // kg/m3 of the drops
	Heat       float64 // J/(kg K) of the drops
	Vapour     float64 // mass fraction of vapour in the saturated gas (Evaporating)
	Unsteady   bool    // unsteady drag and heat of a sphere (Basset and added mass)
	VapourMass float64 // kg/kmol; 0 = water
	DryMass    float64 // kg/kmol of the gas without vapour; 0 = dry air
}

// Check says whether the theory holds: dilute by volume, drops far smaller than the wavelength, and a
// spray that is one (drops of 1 um to 5 mm, up to 5 % by volume).
func (d Droplets) Check(frequency float64) error {
	switch {
	case !(d.Gas.Density > 0 && d.Gas.SoundSpeed > 0 && d.Gas.Viscosity > 0 && d.Gas.Conductivity > 0):
		return fmt.Errorf("spray: the gas has no state")
	case !(frequency > 0 && frequency*d.Diameter < 0.02*d.Gas.SoundSpeed):
		return fmt.Errorf("spray: %.4g Hz lies outside the theory (drops far smaller than the wavelength)", frequency)
	case !(d.Diameter >= 1e-6 && d.Diameter <= 5e-3):
		return fmt.Errorf("spray: drops of %.3g m lie outside the theory (1 um to 5 mm)", d.Diameter)
	case !(d.Loading >= 0 && d.Loading*d.Gas.Density <= Dilute*d.Density && d.Density > 10*d.Gas.Density && d.Heat > 0):
		return fmt.Errorf("spray: loading %.3g (to 5 %% by volume), density or heat capacity lie outside the theory", d.Loading)
	case !(d.Vapour >= 0 && d.Vapour < 0.9):
		return fmt.Errorf("spray: vapour fraction %.3g lies outside the theory (0 to 0.9)", d.Vapour)
	}
	return nil
}

// Relaxation gives the times in which a drop takes up the gas's velocity and temperature, s:
//
//	tau_d = rho_p d^2/(18 mu),  tau_t = rho_p c_l d^2/(12 k)
func (d Droplets) Relaxation() (drag, heat float64) {
	m := d.Density * d.Diameter * d.Diameter
	return m / (18 * d.Gas.Viscosity), m * d.Heat / (12 * d.Gas.Conductivity)
}

func (d Droplets) constants() (vapour, dry float64) {
	vapour, dry = pure[water].mass, airMass
	if d.VapourMass > 0 {
		vapour = d.VapourMass
	}
	if d.DryMass > 0 {
		dry = d.DryMass
	}
	return universal / vapour, universal / dry
}

// VapourDiffusivity of water vapour in air, m2/s (Marrero and Mason 1972, from memory), 280 to 450 K: 1.87e-10
// T^2.072/(p in atm). The temperature is in K, the pressure in Pa.
func VapourDiffusivity(temperature, pressure float64) float64 {
	return 1.87e-10 * math.Pow(temperature, 2.072) * Atmosphere / pressure
}
