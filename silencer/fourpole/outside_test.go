package fourpole

import (
	"math"
	"testing"
)

var (
	hotGas  = Medium{SoundSpeed: 500, Density: 0.53, Viscosity: 3.2e-5, Prandtl: 0.7, Gamma: 1.34}
	coldAir = Medium{SoundSpeed: 343, Density: 1.204, Viscosity: 1.8e-5, Prandtl: 0.71, Gamma: 1.4}
)

// The pipe's own gas outside changes nothing at rest.
func TestSameGasOutside(t *testing.T) {
	o, err := NewOutlet(coldAir, 0.1, 0, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []float64{20, 125, 1000, 3000} {
		w := 2 * math.Pi * f
		a, b := o.Termination(w), o.Into(coldAir).Termination(w)
		if d := a.Impedance - b.Impedance; math.Hypot(real(d), imag(d)) > 1e-9*math.Hypot(real(a.Impedance), imag(a.Impedance)) {
			t.Errorf("%g Hz: impedance %v, with the same gas outside %v", f, a.Impedance, b.Impedance)
		}
		if math.Abs(b.Radiates/a.power()-1) > 1e-9 {
			t.Errorf("%g Hz: power %g against %g", f, b.Radiates, a.power())
		}
	}
}

// Far off one hears a monopole in the air outside: W = rho0 w^2 |Q|^2/(8 pi c0), Q peak volume velocity
// (textbook form, e.g. Pierce, Acoustics, ch. 4), whatever gas fills the pipe.
func TestHotPipeIsAMonopoleInTheAir(t *testing.T) {
	o, err := NewOutlet(hotGas, 0.1, 0, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []float64{20, 60, 120} {
		w := 2 * math.Pi * f
		got := o.Into(coldAir).Termination(w).Radiates / 2
		want := coldAir.Density * w * w / (8 * math.Pi * coldAir.SoundSpeed) / (hotGas.Density * hotGas.Density)
		if math.Abs(10*math.Log10(got/want)) > 0.1 {
			t.Errorf("%g Hz: %.3g W against %.3g W per squared mass velocity", f, got, want)
		}
	}
}

// A hot outlet lets more of what arrives out than its own gas would say, by (T1/T0)^1.5 where ka is small.
func TestHotOutletLetsMoreOut(t *testing.T) {
	o, err := NewOutlet(hotGas, 0.1, 0, false)
	if err != nil {
		t.Fatal(err)
	}
	w := 2 * math.Pi * 50.0
	plain, into := o.Termination(w), o.Into(coldAir).Termination(w)
	want := coldAir.Density / hotGas.Density * hotGas.SoundSpeed / coldAir.SoundSpeed
	if got := real(into.Impedance) / real(plain.Impedance); math.Abs(got/want-1) > 0.02 {
		t.Errorf("resistance grows %.3g times, want %.3g", got, want)
	}
	if r, _ := o.Into(coldAir).Reflection(w); math.Hypot(real(r), imag(r)) >= 1 {
		t.Errorf("reflection %v of a still end is not below 1", r)
	}
}
