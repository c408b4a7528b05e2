package gas

import (
	"math"
	"testing"
)

var aerosol = Droplets{Gas: State{Temperature: 293.15, Pressure: Atmosphere, Density: 1.204, Cp: 1005, Gamma: 1.4, Viscosity: 1.81e-5, Conductivity: .0257, SoundSpeed: 343.2},
	Loading: .01, Diameter: 10e-6, Density: 1000, Heat: 4180}

func TestTemkinDobbins(t *testing.T) {
	td, tt := aerosol.Relaxation()
	near(t, "drag time", td, 3.069368e-4, 1e-9)
	near(t, "heat time", tt, 1.355383e-3, 1e-8)
	for _, r := range []struct{ wt, small, speed, exact, exactSpeed float64 }{
		{.1, 3.387986e-3, .988297, 3.190336e-3, .988415}, {1, 4.074279e-2, .997107, 4.065862e-2, .997089}, {10, 6.486853e-2, .999946, 6.486644e-2, .999946},
	} {
		f := r.wt / td / (2 * math.Pi)
		s, err := aerosol.Small(f)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "small", s.Attenuation/r.small, 1, 1e-6)
		near(t, "small speed", s.SpeedRatio, r.speed, 1e-6)
		e, _ := aerosol.Exact(f)
		near(t, "exact", e.Attenuation/r.exact, 1, 1e-6)
		near(t, "exact speed", e.SpeedRatio, r.exactSpeed, 1e-6)
	}
}

func TestCheck3(t *testing.T) {
	g := Gas{AirFuelRatio: 24}
	x := SaturationPressure(328.15) / Atmosphere
	f := g.Fractions()
	dry := g.Constant()
	_ = dry
	g.Vapour = (x - f[3]) / (1 - x) * 18.015 / (Universal / g.Constant())
	s := g.At(328.15, Atmosphere)
	t.Logf("%+v x %g", s, x)
	s.Density, s.SoundSpeed, s.Gamma, s.Cp = 1.0438, 365.27, 1.3745, 1085.8
	d := Droplets{Gas: s, Loading: .5, Diameter: 100e-6, Density: 1000, Heat: 4180, Vapour: .0978}
	for _, f := range []float64{125, 1000} {
		e, err := d.Exact(f)
		v, _ := d.Evaporating(f)
		d.Unsteady = true
		u, _ := d.Evaporating(f)
		d.Unsteady = false
		t.Log(f, e.Attenuation*8.6859, v.Attenuation*8.6859, u.Attenuation*8.6859, err)
	}
}
