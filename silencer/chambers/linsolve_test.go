package chambers

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"hushwake/silencer/fourpole"
)

// The solutions of blocks in a row satisfy every equation, whatever the sizes, how much neighbours meet and the scale of
// the rows.
func TestBlocksSolveTheirEquations(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	type row struct {
		sizes    []int
		meetings []meeting
	}
	for _, c := range []row{{[]int{1}, nil}, {[]int{7}, nil}, {[]int{3, 5}, nil}, {[]int{10, 20, 10}, nil}, {[]int{2, 1, 6, 4}, nil},
		{[]int{4, 6}, []meeting{{0, 2, 3}}}, {[]int{5, 10, 5}, []meeting{{0, 2, 3}, {5, 1, 4}}}, {[]int{3, 3}, []meeting{{0, 0, 2}}}} {
		var g blocks
		sizes := c.sizes
		g.reset(sizes, c.meetings)
		for i := range g.list {
			b := &g.list[i]
			for k := range b.n {
				scale := complex(math.Pow(10, 6*r.Float64()-3), 0)
				for j := range b.row(k) {
					b.row(k)[j] = scale * complex(r.NormFloat64(), r.NormFloat64())
				}
			}
		}
		was := append([]complex128(nil), g.store...)
		g.solve()
		at := 0
		for i := range g.list {
			b := &g.list[i]
			for range b.n {
				row := was[at : at+b.cols()]
				at += b.cols()
				for side := range sides {
					sum, size := -row[len(row)-sides+side], 0.0
					for j, z := range row[:len(row)-sides] {
						x := g.solution(i, j-b.before, side)
						sum += z * x
						size += cmplx.Abs(z * x)
					}
					near(t, 0, cmplx.Abs(sum)/size, 1e-10, "sizes %v", sizes)
				}
			}
		}
	}
}

// solution is unknown j of a block, counted from its first; those below 0 lie in the block before.
func (g *blocks) solution(i, j, side int) complex128 {
	b := &g.list[i]
	switch {
	case j < 0:
		return g.list[i-1].rhs(b.skip + j + b.before)[side]
	case j >= b.n:
		return g.list[i+1].rhs(j - b.n)[side]
	}
	return b.rhs(j)[side]
}

// A block that resonates by itself, its own equations without a solution, does not spoil the whole.
func TestBlocksSingularAlone(t *testing.T) {
	var g blocks
	g.reset([]int{1, 1}, nil)
	copy(g.store, []complex128{0, 1, 3, 0, 1, 1, 5, 0}) // y = 3, x + y = 5
	g.solve()
	near(t, 2, real(g.list[0].rhs(0)[0]), 1e-5, "x")
	near(t, 3, real(g.list[1].rhs(0)[0]), 1e-5, "y")
}

func TestInverseAndRoot(t *testing.T) {
	for _, x := range []float64{0, 1e-9, 3, -3, 7e5} {
		for _, y := range []float64{0, 1e-7, -1e-7, 2, -2, 4e6} {
			z := complex(x, y)
			if z != 0 {
				near(t, 0, cmplx.Abs(z*fourpole.Inverse(z)-1), 1e-15, "1/%v", z)
			}
			r := root(z)
			near(t, 0, cmplx.Abs(r*r-z), 1e-15*(1+cmplx.Abs(z)), "root of %v", z)
			if imag(r) > 0 {
				t.Errorf("root of %v is %v", z, r)
			}
		}
	}
}
