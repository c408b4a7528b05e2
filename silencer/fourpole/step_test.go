package fourpole

import (
	"math"
	"math/cmplx"
	"testing"
)

// A bare step between unequal pipes, 10 lg((m+1)^2/4m), either way.
func TestBareStep(t *testing.T) {
	for _, m := range []float64{1, 2, 2.5, 9, 1000} {
		a, b := PipeEnd(StandardAir(), 0.05, 0), PipeEnd(StandardAir(), 0.05*math.Sqrt(m), 0)
		want := 10 * math.Log10((m+1)*(m+1)/(4*m))
		near(t, want, lossOf(must(NewStep(a, b, NoCorrections)), a, b, 100), 1e-9, "expansion %g", m)
		near(t, want, lossOf(must(NewStep(b, a, NoCorrections)), b, a, 100), 1e-9, "contraction %g", m)
	}
}

func TestSideBranches(t *testing.T) {
	air := StandardAir()
	host := PipeEnd(air, 0.1, 0)
	q := must(NewQuarterWave(host, 0.06, 0.4, 0, Lossless))
	y, yb := host.Y(), air.SoundSpeed/CircleArea(0.06)
	for _, f := range []float64{30, 100, 200, 300} {
		z := -1i * complex(yb/math.Tan(2*math.Pi*f/343*0.4), 0)
		near(t, 20*math.Log10(cmplx.Abs(1+complex(y, 0)/(2*z))), lossOf(q, host, host, f), 1e-9, "quarter wave at %g Hz", f)
	}
	f0 := 343 / (4 * 0.4)
	near(t, lossCap, lossOf(q, host, host, f0), 0.01, "lossless resonance")
	if !q.CappedAt(2*math.Pi*f0) || q.CappedAt(2*math.Pi*100) {
		t.Error("the limit at resonance must be reported, and only there")
	}
	h := must(NewHelmholtz(host, 1e-4, 0.02, 1e-3, 0))
	near(t, 122.07, h.Resonance(), 0.01, "Helmholtz resonance")
	if tl := lossOf(h, host, host, h.Resonance()); tl > lossCap+0.01 || tl < 80 {
		t.Errorf("lossless resonator: %g dB", tl)
	}
	damped := must(NewQuarterWave(host, 0.06, 0.4, 0.05, Lossless))
	near(t, 20*math.Log10(1+y/(2*0.05*yb)), lossOf(damped, host, host, f0), 1e-6, "resistance at resonance")
}

func TestTemperatureStep(t *testing.T) {
	hot := Medium{SoundSpeed: 343 * 1.42, Density: 1.204 / (1.42 * 1.42)}
	up, down := PipeEnd(hot, 0.1, 0), PipeEnd(StandardAir(), 0.1, 0)
	p := must(NewTemperatureStep(hot, StandardAir()))
	r := hot.Impedance() / StandardAir().Impedance()
	near(t, 10*math.Log10((r+1)*(r+1)/(4*r)), lossOf(p, up, down, 100), 1e-9, "step in rho c")
	near(t, hot.Density/1.204, real(p.At(1).Det()), 1e-12, "determinant")
}

// Without the loss at the steps the peak doesn't feel the flow (both end pipes alike): to order M^2 in the shell.
func TestFlowWithoutLossKeepsThePeak(t *testing.T) {
	m := StandardAir()
	for _, mach := range []float64{0, 0.1, 0.2, 0.3} {
		pipe := PipeEnd(m, 0.049, mach)
		shell := PipeEnd(m, 0.153, mach*math.Pow(0.049/0.153, 2))
		in, out := must(newStep(pipe, shell, false, 0)), must(newStep(shell, pipe, false, 0))
		p := Chain{in, must(NewDuct(m, 0.153, 0.282, shell.Mach, Lossless)), out}
		f := 343 / (4 * 0.282) * (1 - shell.Mach*shell.Mach)
		near(t, 13.850, lossOf(p, pipe, pipe, f), 0.001, "M %g", mach)
	}
}

// A second outlet of another area takes its own power: halving the radiating power per velocity adds 3 dB.
func TestInsertionLossCountsRadiatedPower(t *testing.T) {
	a, b := PipeEnd(StandardAir(), 0.05, 0), PipeEnd(StandardAir(), 0.05*math.Sqrt2, 0)
	z := complex(a.Y(), 0)
	la, lb := Termination{Impedance: z, End: a}, Termination{Impedance: complex(b.Y(), 0), End: b}
	il := Identity().Between(a, b).Into(lb).InsertionLoss(Identity().Between(a, a).Into(la), z)
	want := 20*math.Log10((b.Y()+a.Y())/(2*a.Y())) + 10*math.Log10(a.Y()/b.Y())
	near(t, want, il, 1e-12, "outlet of twice the area")
}
