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

// saturated is exhaust saturated over sea water at a temperature, and its vapour by mass.
func saturated(k float64) (State, float64) {
	g := Gas{AirFuelRatio: 24}
	have, want := g.Fractions()[water], seaWaterActivity*saturationPressure(k)/Atmosphere
	g.Vapour = (want - have) / (1 - want) * pure[water].mass * g.Constant() / universal
	y := want * pure[water].mass * g.Constant() / universal
	return g.At(k, Atmosphere), y
}

// Evaporating drops of 100 um, loading 0.5, in gas saturated at 55 C, dB/m (independent program; its
// diffusivity and latent heat are not known, hence 2 %).
func TestEvaporatingDrops(t *testing.T) {
	s, y := saturated(328.15)
	near(t, "vapour", y, .0978, .0005)
	d := Droplets{Gas: s, Loading: .5, Diameter: 100e-6, Density: 1000, Heat: 4180, Vapour: y}
	for _, r := range []struct{ f, dry, steady, unsteady float64 }{{125, .263671, .318704, .374971}, {1000, .264108, .322121, .514534}} {
		dry, err := d.Exact(r.f)
		if err != nil {
			t.Fatal(err)
		}
		steady, _ := d.Evaporating(r.f)
		film := d
		film.Unsteady = true
		unsteady, _ := film.Evaporating(r.f)
		near(t, "no evaporation", dry.Attenuation*8.6859/r.dry, 1, .02)
		near(t, "evaporating", steady.Attenuation*8.6859/r.steady, 1, .02)
		near(t, "unsteady", unsteady.Attenuation*8.6859/r.unsteady, 1, .02)
	}
}

// At low frequency fog goes through equilibrium states: speed ratios at 60 C by a direct thermodynamic
// derivative.
func TestFogAtLowFrequency(t *testing.T) {
	s, y := saturated(333.15)
	for loading, want := range map[float64]float64{.1: .86592, .3: .78972, 1: .62148} {
		e, err := Droplets{Gas: s, Loading: loading, Diameter: 5e-6, Density: 1000, Heat: 4180, Vapour: y}.Evaporating(0.01)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "speed", e.SpeedRatio, want, .004)
	}
}

// Without vapour the evaporating drops are those of Temkin and Dobbins; without drops nothing happens.
func TestSprayLimits(t *testing.T) {
	for _, f := range []float64{50, 500, 5000} {
		a, _ := aerosol.Exact(f)
		b, err := aerosol.Evaporating(f)
		if err != nil {
			t.Fatal(err)
		}
		s := aerosol.Gas
		// Evaporating writes p/(rho T) out, which the rounded state of the check misses by 1 in 10 000.
		near(t, "no vapour", b.Attenuation/a.Attenuation, 1, .003)
		clear := aerosol
		clear.Loading, clear.Gas = 0, Gas{Kind: Air}.At(s.Temperature, s.Pressure)
		c, _ := clear.Evaporating(f)
		near(t, "no drops", c.Attenuation, 0, 1e-12)
		near(t, "no drops, speed", c.SpeedRatio, 1, 1e-4)
	}
}

func TestSprayRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*Droplets){
		"no drops size": func(d *Droplets) { d.Diameter = 0 }, "rain": func(d *Droplets) { d.Diameter = .02 },
		"heavy": func(d *Droplets) { d.Loading = 60 }, "no gas": func(d *Droplets) { d.Gas = State{} },
		"NaN": func(d *Droplets) { d.Loading = math.NaN() }, "vapour": func(d *Droplets) { d.Vapour = 1 },
	} {
		d := aerosol
		spoil(&d)
		if _, err := d.Exact(500); err == nil {
			t.Errorf("%s accepted", name)
		}
	}
	if _, err := aerosol.Small(-1); err == nil {
		t.Error("negative frequency")
	}
}
