package fourpole

import (
	"math"
	"sync"

	"hushwake/source/cores"
)

// Grid is frequencies that chains are evaluated at. Chains on one grid share what their pieces solved by modes give
// there.
type Grid struct {
	omega, root []float64
	step        float64 // rad/s where they lie evenly, else 0
	rational    bool
}

// Rational is the grid on which pieces solved by modes are exact at some frequencies only, the rest by between.
func (g *Grid) Rational() *Grid {
	r := *g
	r.rational = true
	return &r
}

// NewGrid takes angular frequencies in rad/s, > 0.
func NewGrid(omega []float64) *Grid {
	g := &Grid{omega: omega, root: make([]float64, len(omega))}
	for i, w := range omega {
		g.root[i] = math.Sqrt(w)
	}
	if n := len(omega); n > 2 {
		g.step = (omega[n-1] - omega[0]) / float64(n-1)
		for i, w := range omega {
			if math.Abs(w-omega[0]-float64(i)*g.step) > 1e-13*w {
				g.step = 0
				break
			}
		}
	}
	return g
}

// stretch is how many frequencies one goroutine takes at a time. It is fixed, so that nothing depends on the cores.
const stretch = 36

// each calls f for stretches from, to of the grid, on all cores.
func (g *Grid) each(f func(from, to int)) { cores.Blocks(len(g.omega), stretch, f) }

// Sweep fills out with the matrices on the grid; the frequencies are split over the processors, nothing is allocated
// per frequency.
func (g *Grid) Sweep(p Piece, out []Matrix) { g.SweepWhere(p, nil, out) }

// SweepWhere is Sweep at the frequencies whose place on the grid is wanted, nil = at all; out keeps what it holds at
// the others.
func (g *Grid) SweepWhere(p Piece, wanted func(i int) bool, out []Matrix) {
	run := newProgram(Chain{p})
	run.tables(g)
	g.each(func(from, to int) {
		first := from
		for wanted != nil && first < to && !wanted(first) {
			first++
		}
		if first == to {
			return
		}
		r := newRun(g, from, to)
		run.follow(r)
		if wanted == nil {
			r.sum(out[from:to])
			return
		}
		var m [stretch]Matrix
		r.sum(m[:to-from])
		for i := first; i < to; i++ {
			if wanted(i) {
				out[i] = m[i-from]
			}
		}
	})
}

// Runner is a piece that gains by going from frequency to frequency (rad/s); it keeps its matrices on the last grid.
type Runner interface {
	Piece
	Run(omega []float64, out []Matrix)
	Table() *Table
}

// Table is the matrices of a piece on a grid.
type Table struct {
	sync.Mutex
	grid *Grid
	m    []Matrix
}

// tableOf gives the matrices of a piece on the grid, worked out once.
func (g *Grid) tableOf(p Runner) []Matrix {
	t := p.Table()
	t.Lock()
	defer t.Unlock()
	if t.grid != g {
		m := make([]Matrix, len(g.omega))
		if g.rational {
			cores.Blocks(len(g.omega), 4*stretch, func(from, to int) { newBetween(p, g.omega[from:to], m[from:to]).fill(0, to-from-1) })
		} else {
			g.each(func(from, to int) { p.Run(g.omega[from:to], m[from:to]) })
		}
		t.grid, t.m = g, m
	}
	return t.m
}

// Along is Sweep told on the way: behind the first cuts[k] pieces, cuts rising, visit gets the matrices of those from
// frequency from on, which are its own to read until it returns. It is called from several goroutines.
func (g *Grid) Along(c Chain, cuts []int, visit func(k, from int, m []Matrix)) {
	parts, before := make([]program, len(cuts)), 0
	for k, cut := range cuts {
		parts[k] = newProgram(c[before:cut])
		parts[k].tables(g)
		before = cut
	}
	g.each(func(from, to int) {
		var m [stretch]Matrix
		r := newRun(g, from, to)
		for k := range parts {
			parts[k].follow(r)
			visit(k, from, r.sum(m[:to-from]))
		}
	})
}

// Len is the number of frequencies.
func (g *Grid) Len() int { return len(g.omega) }
