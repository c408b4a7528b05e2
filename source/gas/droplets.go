package gas

import (
	"fmt"
	"math"
	"math/cmplx"
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

// Sound is what a spray does at one frequency.
type Sound struct {
	Attenuation float64 // Np/m; times 8.6859 dB/m
	SpeedRatio  float64 // speed of sound over that of the gas alone
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

// Small is the theory of Temkin and Dobbins (1966) for a small loading without evaporation:
//
//	alpha = w C/(2 c) [w td/(1 + (w td)^2) + (gamma - 1) chi w tt/(1 + (w tt)^2)],  chi = c_l/c_p
//	(c0/c)^2 = 1 + C [1/(1 + (w td)^2) + (gamma - 1) chi/(1 + (w tt)^2)]
func (d Droplets) Small(frequency float64) (Sound, error) {
	if err := d.Check(frequency); err != nil {
		return Sound{}, err
	}
	w := 2 * math.Pi * frequency
	td, tt := d.Relaxation()
	a, b := w*td, w*tt
	x := (d.Gas.Gamma - 1) * d.Heat / d.Gas.Cp
	return Sound{
		Attenuation: w * d.Loading / (2 * d.Gas.SoundSpeed) * (a/(1+a*a) + x*b/(1+b*b)),
		SpeedRatio:  1 / math.Sqrt(1+d.Loading*(1/(1+a*a)+x/(1+b*b))),
	}, nil
}

// Exact is the same for any loading that is dilute by volume, e^{+jwt}:
//
//	(k c0/w)^2 = [1 + C/(1 + j w td)] (1 + gamma X)/(1 + X),  X = C chi/(1 + j w tt)
func (d Droplets) Exact(frequency float64) (Sound, error) {
	if err := d.Check(frequency); err != nil {
		return Sound{}, err
	}
	w := 2 * math.Pi * frequency
	td, tt := d.times(w)
	x := complex(d.Loading*d.Heat/d.Gas.Cp, 0) / (1 + complex(0, w)*tt)
	n2 := (1 + complex(d.Loading, 0)/(1+complex(0, w)*td)) * (1 + complex(d.Gas.Gamma, 0)*x) / (1 + x)
	return d.sound(cmplx.Sqrt(n2), w), nil
}

// times are the relaxation times, with the unsteady terms of an oscillating sphere where asked for:
// td/F, F = 1 + (1+j) a/delta + j 2/9 (a/delta)^2, and tt/(1 + (1+j) a/delta_T); a = d/2.
func (d Droplets) times(w float64) (drag, heat complex128) {
	td, tt := d.Relaxation()
	if !d.Unsteady {
		return complex(td, 0), complex(tt, 0)
	}
	nu := d.Gas.Viscosity / d.Gas.Density
	a := d.Diameter / 2
	v := a / math.Sqrt(2*nu/w)
	t := a / math.Sqrt(2*nu/d.Gas.Prandtl()/w)
	return complex(td, 0) / complex(1+v, v+2.0/9*v*v), complex(tt, 0) / complex(1+t, t)
}

func (d Droplets) sound(n complex128, w float64) Sound {
	k := n * complex(w/d.Gas.SoundSpeed, 0)
	return Sound{Attenuation: math.Abs(imag(k)), SpeedRatio: 1 / real(n)}
}

// Evaporating lets the drops exchange vapour with a saturated gas as well (linear theory of the class of
// Marble 1970 and Cole and Dobbins 1971; derived): water evaporates in the warm half of the wave and
// condenses in the cold half. Unknowns per relative pressure p'/p = 1, e^{+jwt}, l = L/(Rv T):
//
//	jw y' = (1-y) J,  J = C (ys' - y')/((1-y) tm),  ys' = y (Ma/M)(l td' - 1),  tm = rho_p d^2/(12 rho D)
//	jw cp T t' - jw p/rho = -C cl T (t' - td')/tt,  jw cl T td' = cl T (t' - td')/tt - J L/C
//	rho'/rho = 1 - t' - y'(Rv - Ra)/R,  k^2 = w^2 rho (rho'/rho - J/(jw))/p [1 + C/(1 + jw td)]
func (d Droplets) Evaporating(frequency float64) (Sound, error) {
	if err := d.Check(frequency); err != nil {
		return Sound{}, err
	}
	w := 2 * math.Pi * frequency
	drag, kappa := newSpray(d, []Class{{d.Loading, d.Diameter}}).At(w)
	return d.sound(cmplx.Sqrt((1+drag)*kappa), w), nil
}

func (d Droplets) constants() (vapour, dry float64) {
	vapour, dry = pure[water].mass, airMass
	if d.VapourMass > 0 {
		vapour = d.VapourMass
	}
	if d.DryMass > 0 {
		dry = d.DryMass
	}
	return Universal / vapour, Universal / dry
}

// VapourDiffusivity of water vapour in air, m2/s (Marrero and Mason 1972, from memory), 280 to 450 K:
// 1.87e-10 T^2.072/(p in atm).
func VapourDiffusivity(temperature, pressure float64) float64 {
	return 1.87e-10 * math.Pow(temperature, 2.072) * Atmosphere / pressure
}
