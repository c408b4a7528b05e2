package fourpole

import (
	"math"
	"runtime"
	"testing"
)

// off is how far two matrices lie apart, relative, for a pipe of impedance y.
func off(a, b Matrix, y float64) float64 {
	d := Matrix{a.T11 - b.T11, a.T12 - b.T12, a.T21 - b.T21, a.T22 - b.T22}
	return d.size(y) / b.size(y)
}

// Roots continued from one frequency to the next are those found afresh.
func TestRunsAreSinglePoints(t *testing.T) {
	w, y := bandPoints(), PipeEnd(benchGas(), 0.15, 0).Y()
	for name, p := range modalElements() {
		out := make([]Matrix, len(w))
		NewGrid(w).Sweep(p, out)
		for i := range w {
			near(t, 0, off(out[i], p.At(w[i]), y), 1e-8, "%s at %g rad/s", name, w[i])
		}
	}
}

// The rational functions between exact frequencies keep to 0.02 dB of the loss, for every kind of element that is
// solved by modes, and spare at least every fourth evaluation.
func TestBetweenIsClose(t *testing.T) {
	w, end := bandPoints(), PipeEnd(benchGas(), 0.154, 0.08)
	elements := modalElements()
	still := Chamber{Medium: benchGas(), Bore: 0.35, Rooms: []float64{0.6}, InletBore: 0.154, OutletBore: 0.154, InletExtension: 0.3, OutletExtension: 0.15}
	elements["peaks without loss"] = must(still.Modes())
	for name, p := range elements {
		exact := make([]Matrix, len(w))
		NewGrid(w).Sweep(p, exact)
		got := make([]Matrix, len(w))
		NewGrid(w).Rational().Sweep(p, got)
		for i := range w {
			near(t, TransmissionLoss(exact[i], end, end), TransmissionLoss(got[i], end, end), 0.02, "%s at %.0f Hz", name, w[i]/2/math.Pi)
		}
		if n := evaluated(p.(runner), w); n > 3*len(w)/4 {
			t.Errorf("%s: %d of %d frequencies exact", name, n, len(w))
		}
	}
}

func evaluated(p runner, w []float64) (n int) {
	for from := 0; from < len(w); from += 2 * stretch {
		part := w[from:min(from+2*stretch, len(w))]
		b := newBetween(p, part, make([]Matrix, len(part)))
		b.fill(0, len(part)-1)
		for _, e := range b.exact {
			if e {
				n++
			}
		}
	}
	return n
}

// modalLine is a chain with two elements solved by modes, one within a chain of its own.
func modalLine() Chain {
	all, e := modalElements(), PipeEnd(benchGas(), 0.154, 0.08)
	duct := func(l float64) Piece { return must(NewDuct(e.Medium, 0.154, l, e.Mach, ViscoThermal)) }
	return Chain{duct(1), all["extended"], Chain{duct(0.5), all["packed"]}, duct(2), must(NewQuarterWave(e, 0.06, 0.4, 0.02, ViscoThermal))}
}

// On the way along a chain the matrices are those of its first pieces, on even and uneven grids, and the same bits on
// any number of cores.
func TestAlong(t *testing.T) {
	c, y := modalLine(), PipeEnd(benchGas(), 0.154, 0).Y()
	even := make([]float64, 200)
	for i := range even {
		even[i] = 60 + 300*float64(i)
	}
	for _, w := range [][]float64{bandPoints(), even} {
		cuts := []int{0, 2, 2, 5}
		got := make([][]Matrix, len(cuts))
		sweep := func(workers int) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(workers))
			for k := range got {
				got[k] = make([]Matrix, len(w))
			}
			NewGrid(w).Along(c, cuts, func(k, from int, m []Matrix) { copy(got[k][from:], m) })
		}
		sweep(1)
		one := got[3]
		for k, cut := range cuts {
			for i := range w {
				near(t, 0, off(got[k][i], c[:cut].At(w[i]), y), 1e-8, "%d pieces at %g rad/s", cut, w[i])
			}
		}
		got = make([][]Matrix, len(cuts))
		sweep(4)
		for i := range w {
			if got[3][i] != one[i] {
				t.Fatalf("%g rad/s: %v on four cores, %v on one", w[i], got[3][i], one[i])
			}
		}
	}
}

// An even grid is swept by turning; it must be told from one that is even but for its last frequency.
func TestEvenGrid(t *testing.T) {
	w := []float64{10, 20, 30, 40}
	if NewGrid(w).step != 10 {
		t.Error("not even")
	}
	w[3] = 40.001
	if NewGrid(w).step != 0 {
		t.Error("even")
	}
}

// Equal elements in one gas are one piece, whose matrices on a grid are worked out once; others are pieces of their own.
func TestSharedPieces(t *testing.T) {
	a, b := must(femChamber(0.2, 0.05, 0).Modes()), must(femChamber(0.2, 0.05, 0).Modes())
	hot := femChamber(0.2, 0.05, 0)
	hot.Medium = benchGas()
	if a != b || must(hot.Modes()) == a {
		t.Error("chambers")
	}
	tube := femTube(true)
	if must(tube.Modes()) != must(femTube(true).Modes()) {
		t.Error("tubes")
	}
	fill := *tube.Fill
	fill.Resistivity *= 2
	tube.Fill = &fill
	if must(tube.Modes()) == must(femTube(true).Modes()) {
		t.Error("another filling")
	}
	g := NewGrid(bandPoints())
	if x, y := g.tableOf(a.(runner)), g.tableOf(b.(runner)); &x[0] != &y[0] {
		t.Error("worked out twice")
	}
	for i := range 3 * memoSize {
		knownChambers.get(string(rune('a'+i)), func() (*modeSolver, error) { return nil, nil })
	}
	if n := len(knownChambers.kept); n > memoSize {
		t.Errorf("%d chambers kept", n)
	}
	clear(knownChambers.kept)
}

func TestModesAllocateNothingPerFrequency(t *testing.T) {
	c, w := modalLine(), bandPoints()
	out := make([]Matrix, len(w))
	for _, rational := range []bool{false, true} {
		sweep := func(n int) float64 {
			return testing.AllocsPerRun(3, func() {
				g := NewGrid(w[:n])
				g.rational = rational
				g.Sweep(c, out[:n])
			})
		}
		if few, many := sweep(100), sweep(324); many > few+(324-100)/2 { // storage for each part of the grid, none for each frequency
			t.Errorf("rational %v: %g allocations for 324 frequencies, %g for 100", rational, many, few)
		}
	}
}
