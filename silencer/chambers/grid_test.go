package chambers

import (
	"math"
	"runtime"
	"sync/atomic"
	"testing"

	"hushwake/silencer/fourpole"
	"hushwake/source/cores"
)

// off is how far two matrices lie apart, relative, for a pipe of impedance y.
func off(a, b fourpole.Matrix, y float64) float64 {
	size := func(m fourpole.Matrix) float64 {
		return fourpole.Size1(m.T11) + fourpole.Size1(m.T12)/y + fourpole.Size1(m.T21)*y + fourpole.Size1(m.T22)
	}
	return size(fourpole.Matrix{T11: a.T11 - b.T11, T12: a.T12 - b.T12, T21: a.T21 - b.T21, T22: a.T22 - b.T22}) / size(b)
}

// Roots continued from one frequency to the next are those found afresh.
func TestRunsAreSinglePoints(t *testing.T) {
	w, y := bandPoints(), fourpole.PipeEnd(benchGas(), 0.15, 0).Y()
	for name, p := range modalElements() {
		out := make([]fourpole.Matrix, len(w))
		fourpole.NewGrid(w).Sweep(p, out)
		for i := range w {
			near(t, 0, off(out[i], p.At(w[i]), y), 1e-8, "%s at %g rad/s", name, w[i])
		}
	}
}

// The rational functions between exact frequencies keep to 0.02 dB of the loss, for every kind of element that is
// solved by modes, and spare at least every fourth evaluation.
func TestBetweenIsClose(t *testing.T) {
	w, end := bandPoints(), fourpole.PipeEnd(benchGas(), 0.154, 0.08)
	elements := modalElements()
	still := Chamber{Medium: benchGas(), Bore: 0.35, Rooms: []float64{0.6}, InletBore: 0.154, OutletBore: 0.154, InletExtension: 0.3, OutletExtension: 0.15}
	elements["peaks without loss"] = must(still.Modes())
	for name, p := range elements {
		exact := make([]fourpole.Matrix, len(w))
		fourpole.NewGrid(w).Sweep(p, exact)
		got := make([]fourpole.Matrix, len(w))
		fourpole.NewGrid(w).Rational().Sweep(p, got)
		for i := range w {
			near(t, exact[i].Between(end, end).TransmissionLoss(), got[i].Between(end, end).TransmissionLoss(), 0.02, "%s at %.0f Hz", name, w[i]/2/math.Pi)
		}
		if n := evaluated(p, w); n > 3*len(w)/4 {
			t.Errorf("%s: %d of %d frequencies exact", name, n, len(w))
		}
	}
}

// counted is a piece that counts the frequencies it is asked for.
type counted struct {
	fourpole.Runner
	known fourpole.Table
	n     atomic.Int64
}

func (c *counted) Run(omega []float64, out []fourpole.Matrix) {
	c.n.Add(int64(len(omega)))
	c.Runner.Run(omega, out)
}

func (c *counted) Table() *fourpole.Table { return &c.known }

// evaluated is how many frequencies of a rational grid a piece is asked for.
func evaluated(p fourpole.Piece, w []float64) int {
	c := &counted{Runner: p.(fourpole.Runner)}
	fourpole.NewGrid(w).Rational().Sweep(c, make([]fourpole.Matrix, len(w)))
	return int(c.n.Load())
}

// modalLine is a chain with two elements solved by modes, one within a chain of its own.
func modalLine() fourpole.Chain {
	all, e := modalElements(), fourpole.PipeEnd(benchGas(), 0.154, 0.08)
	duct := func(l float64) fourpole.Piece {
		return must(fourpole.NewDuct(e.Medium, 0.154, l, e.Mach, fourpole.ViscoThermal))
	}
	return fourpole.Chain{duct(1), all["extended"], fourpole.Chain{duct(0.5), all["packed"]}, duct(2), must(fourpole.NewQuarterWave(e, 0.06, 0.4, 0.02, fourpole.ViscoThermal))}
}

// On the way along a chain the matrices are those of its first pieces, on even and uneven grids, and the same bits on
// any number of cores.
func TestAlong(t *testing.T) {
	c, y := modalLine(), fourpole.PipeEnd(benchGas(), 0.154, 0).Y()
	even := make([]float64, 200)
	for i := range even {
		even[i] = 60 + 300*float64(i)
	}
	for _, w := range [][]float64{bandPoints(), even} {
		cuts := []int{0, 2, 2, 5}
		got := make([][]fourpole.Matrix, len(cuts))
		sweep := func(workers int) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(workers))
			for k := range got {
				got[k] = make([]fourpole.Matrix, len(w))
			}
			fourpole.NewGrid(w).Along(c, cuts, func(k, from int, m []fourpole.Matrix) { copy(got[k][from:], m) })
		}
		sweep(1)
		one := got[3]
		for k, cut := range cuts {
			for i := range w {
				near(t, 0, off(got[k][i], c[:cut].At(w[i]), y), 1e-8, "%d pieces at %g rad/s", cut, w[i])
			}
		}
		got = make([][]fourpole.Matrix, len(cuts))
		sweep(4)
		for i := range w {
			if got[3][i] != one[i] {
				t.Fatalf("%g rad/s: %v on four cores, %v on one", w[i], got[3][i], one[i])
			}
		}
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
	g := fourpole.NewGrid(bandPoints())
	c, out := &counted{Runner: a.(fourpole.Runner)}, make([]fourpole.Matrix, g.Len())
	g.Sweep(c, out)
	g.Sweep(fourpole.Chain{c, c}, out)
	if n := int(c.n.Load()); n != g.Len() {
		t.Errorf("%d frequencies worked out of %d", n, g.Len())
	}
	worked := 0
	for i := range 3*memoSize + 1 {
		knownChambers.Get(string(rune('a'+i%(3*memoSize))), func() (*modeSolver, error) { worked++; return nil, nil })
	}
	if worked != 3*memoSize+1 {
		t.Errorf("of %d chambers asked for %d were worked out: more than %d are kept", 3*memoSize+1, worked, memoSize)
	}
	knownChambers = cores.Memo[string, *modeSolver]{Most: memoSize}
}

func TestModesAllocateNothingPerFrequency(t *testing.T) {
	c, w := modalLine(), bandPoints()
	out := make([]fourpole.Matrix, len(w))
	for _, rational := range []bool{false, true} {
		sweep := func(n int) float64 {
			return testing.AllocsPerRun(3, func() {
				g := fourpole.NewGrid(w[:n])
				if rational {
					g = g.Rational()
				}
				g.Sweep(c, out[:n])
			})
		}
		if few, many := sweep(100), sweep(324); many > few+(324-100)/2 { // storage for each part of the grid, none for each frequency
			t.Errorf("rational %v: %g allocations for 324 frequencies, %g for 100", rational, many, few)
		}
	}
}
