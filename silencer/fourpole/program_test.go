package fourpole

import (
	"math"
	"testing"
)

// A sweep lays chains within chains flat and joins ducts: the matrices are those of the chain piece by piece.
func TestSweepIsTheChain(t *testing.T) {
	m := StandardAir()
	pipe, wide := PipeEnd(m, 0.06, 0.12), PipeEnd(m, 0.15, 0.12*0.16)
	duct := func(e End, l float64) Piece {
		return must(NewDuctArea(e.Medium, e.Area, 0.2, l, e.Mach, ViscoThermal))
	}
	warm := m
	warm.SoundSpeed, warm.Density = 400, 0.9
	inner := Chain{must(NewStep(pipe, wide, FullCorrections)), duct(wide, 0.3), Chain{duct(wide, 0.2)}, must(NewStep(wide, pipe, NoCorrections))}
	c := Chain{
		duct(pipe, 0.4), duct(pipe, 0.3), inner, duct(pipe, 0), duct(pipe, 0.7),
		must(NewQuarterWave(pipe, 0.04, 0.3, 0.01, ViscoThermal)), must(NewHelmholtz(pipe, 1e-3, 0.03, 2e-3, 0)),
		must(NewParallel(duct(pipe, 0.2), duct(pipe, 0.5))), must(NewTemperatureStep(m, warm)), duct(PipeEnd(warm, 0.06, 0.11), 0.2),
	}
	if n := len(newProgram(c)); n != 10 {
		t.Errorf("%d pieces laid flat, want 10", n)
	}
	omega := []float64{0.6, 50, 700, 3333, 20000, 120000}
	out := make([]Matrix, len(omega))
	NewGrid(omega).Sweep(c, out)
	for i, w := range omega {
		want := Identity()
		for _, p := range c {
			want = want.Mul(p.At(w))
		}
		scale := Size1(want.T11) + Size1(want.T22)
		z := real(complex(pipe.Y(), 0))
		for _, got := range []Matrix{out[i], c.At(w)} {
			miss := Size1(got.T11-want.T11) + Size1(got.T22-want.T22) + Size1(got.T12-want.T12)/z + Size1(got.T21-want.T21)*z
			near(t, 0, miss/scale, 1e-11, "omega %g", w)
		}
	}
}

func TestHyperbolic(t *testing.T) {
	for _, y := range []float64{0, 1e-9, 0.01, 0.0299999, 0.03, 0.1, 0.1999999, 0.2, 0.3, 2, 30} {
		ch, sh := hyperbolic(y)
		near(t, 1, ch/math.Cosh(y), 1e-15, "cosh %g", y)
		near(t, math.Sinh(y), sh, 1e-15*math.Cosh(y), "sinh %g", y)
	}
}

// A branch at its own resonance is found wherever it stands, and only there.
func TestCappedIsFoundInside(t *testing.T) {
	pipe := PipeEnd(StandardAir(), 0.06, 0)
	branch := must(NewQuarterWave(pipe, 0.03, 0.343, 0, Lossless))
	duct := must(NewDuct(pipe.Medium, 0.06, 0.4, 0, Lossless))
	for name, c := range map[string]Chain{
		"alone": {branch}, "chain": {duct, Chain{duct, branch}}, "parallel": {must(NewParallel(duct, Chain{duct, branch}))},
	} {
		at := func(f float64) (found bool) {
			for _, p := range c.Capped() {
				found = found || p.CappedAt(2*math.Pi*f)
			}
			return found
		}
		if !at(250) || at(251) || c.CappedAt(2*math.Pi*250) != at(250) {
			t.Errorf("%s: %v at 250 Hz, %v at 251 Hz", name, at(250), at(251))
		}
	}
	if n := len(Chain{duct, Chain{duct}}.Capped()); n != 0 {
		t.Errorf("%d pieces of plain ducts", n)
	}
}

// Where only some frequencies are wanted they are those of the whole sweep, to the bit, and the others stay as they were.
func TestSweepWhere(t *testing.T) {
	line, w := benchLine(), benchOmega()[:200]
	all, some := make([]Matrix, len(w)), make([]Matrix, len(w))
	NewGrid(w).Sweep(line, all)
	wanted := func(i int) bool { return i%3 == 1 && i/stretch != 2 || i == 199 }
	NewGrid(w).SweepWhere(line, wanted, some)
	for i := range w {
		want := Matrix{}
		if wanted(i) {
			want = all[i]
		}
		if some[i] != want {
			t.Errorf("place %d: %v, not %v", i, some[i], want)
		}
	}
}
