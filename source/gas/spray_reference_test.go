package gas

import (
	"math"
	"math/cmplx"
)

// Sound is what a spray does at one frequency.
type Sound struct {
	Attenuation float64 // Np/m; times 8.6859 dB/m
	SpeedRatio  float64 // speed of sound over that of the gas alone
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
