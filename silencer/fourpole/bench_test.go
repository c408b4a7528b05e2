package fourpole

import (
	"math"
	"math/cmplx"
	"testing"
)

// The line of the speed comparison: 12 elements, mean flow and wall losses.
const (
	benchPoints   = 4000
	benchElements = 12
	benchMach     = 0.1
)

var benchPipe, benchShell = 0.1, 0.3

func benchOmega() []float64 {
	w := make([]float64, benchPoints)
	for i := range w {
		w[i] = 2 * math.Pi * (10 + 2*float64(i))
	}
	return w
}

func benchLine() Chain {
	m := StandardAir()
	pipe := PipeEnd(m, benchPipe, benchMach)
	shell := PipeEnd(m, benchShell, benchMach/9)
	duct := func(e End, l float64) Piece {
		return must(NewDuctArea(m, e.Area, 2*math.Sqrt(math.Pi*e.Area), l, e.Mach, ViscoThermal))
	}
	in, out := must(NewStep(pipe, shell, FullCorrections)), must(NewStep(shell, pipe, FullCorrections))
	return Chain{
		duct(pipe, 1.2), in, duct(shell, 0.6), out, duct(pipe, 0.8),
		must(NewQuarterWave(pipe, 0.06, 0.4, 0.02, ViscoThermal)), duct(pipe, 0.5), in, duct(shell, 0.4), out,
		duct(pipe, 1), must(NewHelmholtz(pipe, 2e-3, 0.05, 6e-3, 0.02)),
	}
}

// plainLoop is the same line as one would first write it: complex sines, cosines and exponentials for each element
// and frequency.
type plainLoop struct {
	m           Medium
	growth, end float64 // of the inertance of its steps
}

func newPlainLoop() plainLoop {
	p := plainLoop{m: StandardAir()}
	a, b := CircleArea(benchPipe), CircleArea(benchShell)
	p.growth, p.end = stepGrowth(a, b, StepInertance(benchPipe, benchShell), p.m.SoundSpeed)
	return p
}

func (p plainLoop) duct(w, bore, length, mach float64) Matrix {
	a := WallAttenuation(p.m, bore/2, w)
	k := complex(w/p.m.SoundSpeed+a, -a-TurbulentAttenuation(p.m, bore, mach)) / complex(1-mach*mach, 0)
	y := complex(p.m.SoundSpeed/CircleArea(bore), 0)
	l := complex(length, 0)
	f := cmplx.Exp(-1i * complex(mach, 0) * k * l)
	return Matrix{f * cmplx.Cos(k*l), f * 1i * y * cmplx.Sin(k*l), f * 1i / y * cmplx.Sin(k*l), f * cmplx.Cos(k*l)}
}

func (p plainLoop) step(w, up, down, mach float64) Matrix {
	md := mach * math.Pow(up/down, 2)
	yu, yd := complex(p.m.SoundSpeed/CircleArea(up), 0), complex(p.m.SoundSpeed/CircleArea(down), 0)
	k := StepLossFactor(CircleArea(up), CircleArea(down))
	near := math.Min(w, p.end)
	inertance := StepInertance(up, down) / CircleArea(math.Min(up, down)) * (1 + p.growth*near*near)
	series := complex(k*md, 0)*yd + complex(0, w*inertance)
	mu, m := complex(mach, 0), complex(md, 0)
	toClassical := Matrix{1 / (1 - mu*mu), -mu * yu / (1 - mu*mu), -mu / yu / (1 - mu*mu), 1 / (1 - mu*mu)}
	return toClassical.Mul(Matrix{1, series, 0, 1}).Mul(Matrix{1, m * yd, m / yd, 1})
}

func (p plainLoop) quarterWave(w, bore, length, resistance float64) Matrix {
	a := WallAttenuation(p.m, bore/2, w)
	kl := complex(w/p.m.SoundSpeed+a, -a) * complex(length, 0)
	y := complex(p.m.SoundSpeed/CircleArea(bore), 0)
	return Matrix{1, 0, 1 / (complex(resistance, 0)*y - 1i*y*cmplx.Cos(kl)/cmplx.Sin(kl)), 1}
}

func (p plainLoop) helmholtz(w, area, length, volume, resistance float64) Matrix {
	c := p.m.SoundSpeed
	z := complex(resistance*c/area, w*length/area) - 1i*complex(c*c/(w*volume), 0)
	return Matrix{1, 0, 1 / z, 1}
}

func (p plainLoop) at(w float64) Matrix {
	small, big := benchPipe, benchShell
	shellMach := benchMach * small * small / (big * big)
	t := p.duct(w, small, 1.2, benchMach)
	for _, n := range []Matrix{
		p.step(w, small, big, benchMach), p.duct(w, big, 0.6, shellMach), p.step(w, big, small, shellMach),
		p.duct(w, small, 0.8, benchMach), p.quarterWave(w, 0.06, 0.4, 0.02), p.duct(w, small, 0.5, benchMach),
		p.step(w, small, big, benchMach), p.duct(w, big, 0.4, shellMach), p.step(w, big, small, shellMach),
		p.duct(w, small, 1, benchMach), p.helmholtz(w, 2e-3, 0.05, 6e-3, 0.02),
	} {
		t = t.Mul(n)
	}
	return t
}

// The two ways must agree before their speeds are compared.
func TestBenchLinesAgree(t *testing.T) {
	line, plain := benchLine(), newPlainLoop()
	if len(line) != benchElements {
		t.Fatalf("%d elements", len(line))
	}
	end := PipeEnd(plain.m, benchPipe, benchMach)
	for _, w := range benchOmega() {
		near(t, plain.at(w).Between(end, end).TransmissionLoss(), line.At(w).Between(end, end).TransmissionLoss(), 1e-8, "omega %g", w)
	}
}

func TestSweepAllocatesNothingPerFrequency(t *testing.T) {
	line, w := benchLine(), benchOmega()
	out := make([]Matrix, len(w))
	few := testing.AllocsPerRun(5, func() { NewGrid(w[:400]).Sweep(line, out[:400]) })
	many := testing.AllocsPerRun(5, func() { NewGrid(w).Sweep(line, out) })
	if many > few+8 {
		t.Errorf("%g allocations for 4000 frequencies, %g for 400", many, few)
	}
}

func BenchmarkLine(b *testing.B) {
	line, plain, w := benchLine(), newPlainLoop(), benchOmega()
	out := make([]Matrix, len(w))
	per := func(b *testing.B) {
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/(benchPoints*benchElements), "ns/element-frequency")
	}
	b.Run("prepared", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			NewGrid(w).Sweep(line, out)
		}
		per(b)
	})
	b.Run("plain-cmplx", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			for i := range w {
				out[i] = plain.at(w[i])
			}
		}
		per(b)
	})
}
