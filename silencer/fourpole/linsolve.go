package fourpole

import "math"

// grid is a dense complex system with its right-hand sides in the last columns; storage is kept for reuse.
type grid struct {
	rows, cols int
	a          []complex128
}

func (g *grid) reset(rows, rhs int) {
	g.rows, g.cols = rows, rows+rhs
	n := g.rows * g.cols
	if cap(g.a) < n {
		g.a = make([]complex128, n)
	}
	g.a = g.a[:n]
	clear(g.a)
}

func (g *grid) row(i int) []complex128 { return g.a[i*g.cols : (i+1)*g.cols] }

// solve eliminates with row scaling and partial pivoting; the solutions then stand in the last columns.
// A vanishing pivot is lifted to 1e-300 of the row, so that the result stays finite.
func (g *grid) solve() {
	n := g.rows
	for i := range n {
		g.scaleRow(i)
	}
	for k := range n {
		g.pivot(k)
		rk := g.row(k)
		inv := 1 / rk[k]
		for i := k + 1; i < n; i++ {
			ri := g.row(i)
			if ri[k] == 0 {
				continue
			}
			f := ri[k] * inv
			for j := k + 1; j < g.cols; j++ {
				ri[j] -= f * rk[j]
			}
		}
	}
	g.backSubstitute()
}

func (g *grid) backSubstitute() {
	n := g.rows
	for k := n - 1; k >= 0; k-- {
		rk := g.row(k)
		for c := n; c < g.cols; c++ {
			s := rk[c]
			for j := k + 1; j < n; j++ {
				s -= rk[j] * g.a[j*g.cols+c]
			}
			rk[c] = s / rk[k]
		}
	}
}

func size1(z complex128) float64 { return math.Abs(real(z)) + math.Abs(imag(z)) }

func (g *grid) scaleRow(i int) {
	r := g.row(i)
	most := 0.0
	for _, z := range r[:g.rows] {
		most = math.Max(most, size1(z))
	}
	if most > 0 && (most > 2 || most < 0.5) {
		s := complex(1/most, 0)
		for j := range r {
			r[j] *= s
		}
	}
}

func (g *grid) pivot(k int) {
	best, most := k, 0.0
	for i := k; i < g.rows; i++ {
		if s := size1(g.a[i*g.cols+k]); s > most {
			best, most = i, s
		}
	}
	if best != k {
		a, b := g.row(best), g.row(k)
		for j := range a {
			a[j], b[j] = b[j], a[j]
		}
	}
	if most < 1e-300 {
		g.a[k*g.cols+k] = 1e-300
	}
}
