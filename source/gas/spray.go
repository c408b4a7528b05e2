package gas

import "math"

// Class is the drops of one size in a spray.
type Class struct {
	Loading  float64 // mass of drops per mass of gas
	Diameter float64 // m
}

// Spray is drops of several sizes in one saturated gas, made ready for many frequencies.
type Spray struct {
	classes           []class
	vapour            float64 // mass fraction y
	k, steep          float64 // y R/Ra, L/(Rv T)
	perDensity        float64 // rho c^2/p
	heat, lift, share float64 // cp T, p/rho, (Rv - Ra)/R
}

// class is one size with all that does not depend on frequency. The unsteady terms of a sphere grow with sqrt w.
type class struct {
	loading                float64
	drag                   float64 // 1/tau_d
	heat                   float64 // 1/tau_t
	mass                   float64 // C/((1-y) tau_m)
	latent                 float64 // mass q = L/((1-y) tau_m cl T)
	give                   float64 // C cl T/tau_t
	viscous, thermal, film float64 // a/delta per sqrt w
}

// NewSpray prepares a spray; d gives gas, density, heat and vapour of the drops, its loading and diameter are not asked.
func NewSpray(d Droplets, classes []Class) (*Spray, error) {
	all := d
	all.Loading = 0
	for _, c := range classes {
		d.Diameter, d.Loading = c.Diameter, c.Loading
		all.Loading += c.Loading
		if err := d.Check(1); err != nil {
			return nil, err
		}
	}
	if len(classes) > 0 {
		all.Diameter = classes[0].Diameter
		if err := all.Check(1); err != nil {
			return nil, err
		}
	}
	d.Unsteady = true
	return newSpray(d, classes), nil
}

func newSpray(d Droplets, classes []Class) *Spray {
	g, y := d.Gas, d.Vapour
	rv, ra := d.constants()
	r := y*rv + (1-y)*ra
	latent := latentZero - 2361*(g.Temperature-ZeroC)
	diffusivity := VapourDiffusivity(g.Temperature, g.Pressure)
	s := &Spray{vapour: y, k: y * r / ra, steep: latent / (rv * g.Temperature), share: (rv - ra) / r,
		perDensity: g.Density * g.SoundSpeed * g.SoundSpeed / g.Pressure, heat: g.Cp * g.Temperature, lift: g.Pressure / g.Density}
	nu := g.Viscosity / g.Density
	for _, c := range classes {
		d.Diameter = c.Diameter
		td, tt := d.Relaxation()
		tm := (1 - y) * d.Density * c.Diameter * c.Diameter / (12 * g.Density * diffusivity)
		k := class{loading: c.Loading, drag: 1 / td, heat: 1 / tt, mass: c.Loading / tm,
			latent: latent / (tm * d.Heat * g.Temperature), give: c.Loading * d.Heat * g.Temperature / tt}
		if d.Unsteady {
			a := c.Diameter / 2 / math.Sqrt2
			k.viscous, k.thermal, k.film = a/math.Sqrt(nu), a/math.Sqrt(nu/g.Prandtl()), a/math.Sqrt(diffusivity)
		}
		s.classes = append(s.classes, k)
	}
	return s
}

// At gives at omega (rad/s), e^{+jwt}, what the drops add to the inertia of the gas and the factor on its
// compressibility: Z' = (jw rho/S)(1 + drag), Y' = (jw S/(rho c^2)) kappa. Linear theory of the class of Marble 1970
// and Cole and Dobbins 1971 for each size i, all in one gas (derived); p'/p = 1, l = L/(Rv T), K = y R/Ra:
//
//	drag = sum C_i/(1 + jw td),  A_i = C_i/((1-y) tm),  D_i = jw + 1/tt + A_i q_i K l,  q_i = L/(C_i cl T)
//	a_i = 1/(tt D_i),  b_i = A_i q_i K/D_i,  e_i = A_i q_i/D_i          (drop temperature a_i t' + b_i + e_i y')
//	J = t' sum A_i K l a_i + sum A_i K(l b_i - 1) + y' sum A_i(K l e_i - 1),  jw y' = (1-y) J
//	jw cp T t' = jw p/rho - sum h_i [t'(1 - a_i) - b_i - e_i y'],  h_i = C_i cl T/tt
//	kappa = (rho c^2/p)[1 - t' - y'(Rv-Ra)/R - J/(jw)]
func (s *Spray) At(omega float64) (drag, kappa complex128) {
	jw, root := complex(0, omega), math.Sqrt(omega)
	kl := s.k * s.steep
	var sa, sb, se, h1, hb, he complex128
	for i := range s.classes {
		c := &s.classes[i]
		v, t, m := c.viscous*root, c.thermal*root, c.film*root
		f := complex(c.drag*(1+v), c.drag*(v+2.0/9*v*v))
		drag += over(times(c.loading, f), f+jw)
		heat, film := complex(1+t, t), complex(1+m, m)
		mass, latent, give := times(c.mass, film), times(c.latent, film), times(c.give, heat)
		heat = times(c.heat, heat)
		inv := over(1, jw+heat+times(kl, latent))
		a, e := heat*inv, latent*inv
		b := times(s.k, e)
		sa += times(kl, mass) * a
		sb += times(s.k, mass) * (times(s.steep, b) - 1)
		se += mass * (times(kl, e) - 1)
		h1 += give * (1 - a)
		hb -= give * b
		he -= give * e
	}
	dry := complex(1-s.vapour, 0)
	y := over(dry, jw-dry*se)
	y1, y0 := y*sa, y*sb
	theta := over(times(s.lift, jw)-hb-he*y0, times(s.heat, jw)+h1+he*y1)
	vapour := y1*theta + y0
	j := sa*theta + sb + se*vapour
	return drag, times(s.perDensity, 1-theta-times(s.share, vapour)-over(j, jw))
}

// times is x z.
func times(x float64, z complex128) complex128 { return complex(x*real(z), x*imag(z)) }

// over is a/b of finite numbers far from the ends of their range; that of the language looks for infinities first.
func over(a, b complex128) complex128 {
	x, y := real(b), imag(b)
	d := 1 / (x*x + y*y)
	return a * complex(x*d, -y*d)
}

// OverSeaWater is the vapour in a gas that stands over sea water at a temperature (K) and pressure (Pa): its fraction
// by moles and by mass, and the molar mass of the rest, kg/kmol.
func (g Gas) OverSeaWater(temperature, pressure float64) (mole, mass, dryMass float64) {
	x := min(1, seaWaterActivity*saturationPressure(temperature)/pressure)
	f := g.Fractions()
	dry, rest := 0.0, 0.0
	for i, v := range f {
		if i != water {
			dry, rest = dry+v*pure[i].mass, rest+v
		}
	}
	dryMass = dry / rest
	return x, x * pure[water].mass / (x*pure[water].mass + (1-x)*dryMass), dryMass
}
