package fourpole

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"

	"hushwake/source/spectrum"
)

// The end as used against the exact integrals: |R| to 1 % for ka to 2, the end correction to 1 % to 1.5.
func TestEndAgainstExact(t *testing.T) {
	for ka := 0.02; ka <= 2; ka += 0.02 {
		r, d, err := levineSchwinger(ka)
		if err != nil {
			t.Fatal(err)
		}
		gotR, gotD := endOf(ka)
		near(t, r, gotR, 0.01*r, "|R| at ka %g", ka)
		if ka <= 1.5 {
			near(t, d, gotD, 0.01*d, "end correction at ka %g", ka)
		}
	}
	_, d, err := levineSchwinger(1e-3)
	if err != nil {
		t.Fatal(err)
	}
	near(t, 0.6133, d, 0.001, "low-frequency end correction") // Levine & Schwinger 1948
}

// endOf is |R| and the end correction over the radius of an unflanged outlet at rest, as predictions use them.
func endOf(ka float64) (modulus, correction float64) {
	o := must(NewOutlet(StandardAir(), 0.1, 0, false))
	r, _ := o.Reflection(ka * StandardAir().SoundSpeed / 0.05)
	return cmplx.Abs(r), -cmplx.Phase(-r) / (2 * ka)
}

// At rest the impedance tends to Y(x^2/4 + 0.61 jx); with flow the energy reflected never exceeds what arrives.
func TestEndLimits(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		ka := drawBore(r, "ka", 1e-5, 10)
		mach := rapid.Float64Range(0, 0.3).Draw(r, "mach")
		o := must(NewOutlet(StandardAir(), 0.1, mach, rapid.Bool().Draw(r, "flanged")))
		w := ka * 343 / 0.05
		ref, one := o.Reflection(w)
		near(r, 0, cmplx.Abs(1+ref-one), 1e-12, "1+R")
		if cmplx.Abs(ref)*(1-mach)/(1+mach) > 1 {
			r.Errorf("energy reflected: |R| %g", cmplx.Abs(ref))
		}
		if p := o.Termination(w).power(); p <= 0 {
			r.Errorf("radiated power %g", p)
		}
		if l := o.EndLoss(w); l < 0 {
			r.Errorf("end loss %g dB", l)
		}
	})
	o := must(NewOutlet(StandardAir(), 0.1, 0, false))
	const x = 1e-3
	z := o.Impedance(x*343/0.05) / complex(PipeEnd(StandardAir(), 0.1, 0).Y(), 0)
	near(t, x*x/4, real(z), 0.01*x*x/4, "resistance")
	near(t, 0.6133*x, imag(z), 0.001*x, "reactance")
}

// The power of the termination is what the reflection lets through.
func TestTerminationPower(t *testing.T) {
	o := must(NewOutlet(StandardAir(), 0.1, 0.2, false))
	const w = 2000.0
	ref, _ := o.Reflection(w)
	e := PipeEnd(StandardAir(), 0.1, 0.2)
	v := cmplx.Abs(1-ref) / e.Y()
	want := (math.Pow(1.2, 2) - math.Pow(0.8*cmplx.Abs(ref), 2)) / e.Y() / e.Medium.Density
	near(t, want, o.Termination(w).power()*v*v, 1e-9*want, "power")
}

func TestFibresStayPassiveInRange(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		sigma := rapid.Float64Range(3000, 50000).Draw(r, "sigma")
		low, high := FibreRange(sigma, 1.204)
		near(r, 0.01*sigma, low, 1e-9*sigma, "lower limit")
		e := FibreFluid(rapid.SampledFrom([]Fibre{AllardChampoux, DelanyBazley, Miki}).Draw(r, "fibre"), sigma, 1.204, drawBore(r, "f", low, high))
		if !(real(e.Impedance) > 1 && imag(e.Impedance) < 0 && real(e.Wavenumber) > 1 && imag(e.Wavenumber) < 0) {
			r.Errorf("%+v", e)
		}
	})
	for _, f := range []Fibre{AllardChampoux, DelanyBazley, Miki} {
		if f.String() == "" {
			t.Errorf("fibre %d without name or source", f)
		}
	}
	hot := must(HotResistivity(10000, 3.3e-5))
	near(t, 10000*3.3/1.813, hot, 1, "hot resistivity")
}

// More porosity, less impedance; more grazing flow, more resistance; at c = 343 the hot form is the printed one.
func TestPerforates(t *testing.T) {
	w := Perforate{0.1, 0.003, 0.0015}
	open := w
	open.Porosity = 0.2
	if cmplx.Abs(StillPerforate(open, 10, 1)) >= cmplx.Abs(StillPerforate(w, 10, 1)) {
		t.Error("porosity")
	}
	if real(GrazingPerforate(w, 10, 0.2, 1)) <= real(GrazingPerforate(w, 10, 0.1, 1)) {
		t.Error("grazing flow")
	}
	f := 700.0
	k := 2 * math.Pi * f / 343
	near(t, 2.2245e-5*f*(1+51*0.0015)*(1+204*0.003)/0.1, imag(GrazingPerforate(w, k, 0, 1)), 1e-9, "printed reactance")
	near(t, k*(0.0015+0.75*0.003)/0.1, imag(StillPerforate(w, k, 1)), 1e-12, "still reactance")
	near(t, 0.514*0.05*0.1/(0.2*0.1)/0.1, real(ThroughPerforate(w, k, 0.1, 0.05, 0.2)), 1e-12, "flow through")
}

func TestFlowNoiseBands(t *testing.T) {
	b := must(SilencerFlowNoiseBands(25, 0.01))
	near(t, must(silencerFlowNoise(25, 0.01)), b.DBA(), 1e-6, "A-weighted sum of the octaves")
	near(t, 15.05, must(silencerFlowNoise(40, 0.01))-must(silencerFlowNoise(20, 0.01)), 0.01, "twice the velocity")
	near(t, 0, HotFlowNoiseShift(StandardAir()), 1e-12, "cold air")
	slow := must(SilencerFlowNoiseBands(1e-9, 1e-6))
	for _, l := range slow {
		if l < spectrum.Silent {
			t.Errorf("below silence: %g", l)
		}
	}
}

func TestBreakout(t *testing.T) {
	heavy := must(wallBands(func(f float64) (float64, error) { return shellBreakout(20, f) }))
	light := must(wallBands(func(f float64) (float64, error) { return shellBreakout(5, f) }))
	for i := range heavy {
		if heavy[i] < light[i] || heavy[i] > shellBreakoutCap {
			t.Errorf("band %d: %g dB of the heavy wall, %g of the light one", i, heavy[i], light[i])
		}
	}
	near(t, 97, must(radiatedThroughWall(100, 0, 1, 0.01)), 1e-12, "never more than half the power")
}
