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

// With flow too no more is heard far off than passes the end; the rest is lost in the jet. At rest they are the same.
func TestFarFieldTakesNoMoreThanPasses(t *testing.T) {
	for _, inside := range []Medium{hotGas, coldAir} {
		for _, mach := range []float64{0, 0.02, 0.1, 0.2, 0.3} {
			o := must(NewOutlet(inside, 0.1, mach, false)).Into(coldAir)
			for f := 5.0; f < 10000; f *= 1.3 {
				far := o.Termination(2 * math.Pi * f)
				end := far
				end.Radiates = 0
				if ratio := far.power() / end.power(); ratio > 1+1e-9 || !(ratio > 0) {
					t.Errorf("M %g, %g m/s, %g Hz: %g of what passes is heard", mach, inside.SoundSpeed, f, ratio)
				} else if mach == 0 {
					near(t, 1, ratio, 1e-9, "%g Hz at rest", f)
				}
			}
		}
	}
}
