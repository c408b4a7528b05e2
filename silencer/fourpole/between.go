package fourpole

import (
	"math"
	"math/cmplx"
	"slices"
)

// between fills the matrices of a piece on part of a grid from exact ones at some of its frequencies: the four terms
// are rational functions of frequency with poles in common, taken in barycentric form with weights that fit the
// frequencies half-way best (the form of Nakatsukasa, Sete and Trefethen 2018, AAA, from memory). Where that fit misses
// one of those by more than closeness the part is halved; parts of few frequencies are exact throughout.
type between struct {
	piece  Runner
	omega  []float64
	m      []Matrix
	exact  []bool
	ask    []float64 // scratch
	solved []Matrix
	where  []int
}

const (
	nodes     = 13 // exact frequencies in a part: two of three, and the last, are supports of the fraction
	tests     = 4  // the others
	support   = nodes - tests
	fewest    = 18   // frequencies in a part
	closeness = 1e-5 // of the size of the matrix at the other nodes
)

func newBetween(p Runner, omega []float64, m []Matrix) *between {
	return &between{piece: p, omega: omega, m: m, exact: make([]bool, len(omega))}
}

// fill works out frequencies lo to hi.
func (b *between) fill(lo, hi int) {
	b.want(lo, hi)
	b.answer()
	if hi-lo < fewest {
		return
	}
	if f, ok := b.fraction(lo, hi); ok {
		for i := lo; i <= hi; i++ {
			if !b.exact[i] {
				b.m[i] = f.at(b.omega[i])
			}
		}
		return
	}
	mid := place(lo, hi, nodes/2, nodes)
	b.want(lo, mid)
	b.want(mid, hi) // in one row with the others: the piece goes from each to the next
	b.fill(lo, mid)
	b.fill(mid, hi)
}

// place is that of node i of n between two places; those of a half are among those of the whole.
func place(lo, hi, i, n int) int { return lo + i*(hi-lo)/(n-1) }

// want asks for the nodes from lo to hi, for all frequencies where they are few.
func (b *between) want(lo, hi int) {
	n := nodes
	if hi-lo < fewest {
		n = 1 + hi - lo
	}
	for i := range n {
		if k := place(lo, hi, i, n); !b.exact[k] {
			b.ask, b.where = append(b.ask, b.omega[k]), append(b.where, k)
			b.exact[k] = true
		}
	}
}

// answer makes what is asked for exact.
func (b *between) answer() {
	b.solved = slices.Grow(b.solved[:0], len(b.ask))[:len(b.ask)]
	b.piece.Run(b.ask, b.solved)
	for i, k := range b.where {
		b.m[k] = b.solved[i]
	}
	b.ask, b.where = b.ask[:0], b.where[:0]
}

// fraction is a matrix of rational functions of frequency that takes its values at the supports.
type fraction struct {
	omega  [support]float64
	weight [support]complex128
	value  [support]Matrix
}

// fraction fits the nodes from lo to hi; false where it misses one.
func (b *between) fraction(lo, hi int) (f fraction, ok bool) {
	for j := range support {
		k := place(lo, hi, (3*j+1)/2, nodes)
		f.omega[j], f.value[j] = b.omega[k], b.m[k]
	}
	y := math.Sqrt(Size1(f.value[support/2].T12) / Size1(f.value[support/2].T21))
	if !(y > 0) || math.IsInf(y, 0) {
		return f, false
	}
	var l [4 * tests][support]complex128 // differences over differences of frequency
	for i := range tests {
		k := place(lo, hi, 3*i+1, nodes)
		size := 1 / b.m[k].size(y)
		for j := range support {
			d := size / (b.omega[k] - f.omega[j]) * f.omega[support/2]
			l[4*i][j] = (b.m[k].T11 - f.value[j].T11) * complex(d, 0)
			l[4*i+1][j] = (b.m[k].T12 - f.value[j].T12) * complex(d/y, 0)
			l[4*i+2][j] = (b.m[k].T21 - f.value[j].T21) * complex(d*y, 0)
			l[4*i+3][j] = (b.m[k].T22 - f.value[j].T22) * complex(d, 0)
		}
	}
	f.weight = leastVector(&l)
	for i := range tests {
		k := place(lo, hi, 3*i+1, nodes)
		got, want := f.at(b.omega[k]), b.m[k]
		miss := Matrix{got.T11 - want.T11, got.T12 - want.T12, got.T21 - want.T21, got.T22 - want.T22}
		if !(miss.size(y) < closeness*want.size(y)) {
			return f, false
		}
	}
	return f, true
}

// size is the sum of the terms, those of unlike unit brought together by an impedance.
func (m *Matrix) size(y float64) float64 {
	return Size1(m.T11) + Size1(m.T12)/y + Size1(m.T21)*y + Size1(m.T22)
}

// at is the value at a frequency that is no support.
func (f *fraction) at(omega float64) (m Matrix) {
	den := complex128(0)
	for j, w := range f.weight {
		d := 1 / (omega - f.omega[j])
		t, v := complex(real(w)*d, imag(w)*d), &f.value[j]
		den += t
		m.T11 += t * v.T11
		m.T12 += t * v.T12
		m.T21 += t * v.T21
		m.T22 += t * v.T22
	}
	return m.Scale(Inverse(den))
}

// leastVector is the unit vector w with the least |L w|: by inverse iteration with the triangle of L = QR.
func leastVector(l *[4 * tests][support]complex128) (w [support]complex128) {
	var r [support][support]complex128
	q := *l
	for j := range support {
		for k := range j {
			for i := range q {
				r[k][j] += cmplx.Conj(q[i][k]) * q[i][j]
			}
			for i := range q {
				q[i][j] -= r[k][j] * q[i][k]
			}
		}
		long := 0.0
		for i := range q {
			long += real(q[i][j])*real(q[i][j]) + imag(q[i][j])*imag(q[i][j])
		}
		long = max(math.Sqrt(long), 1e-100)
		r[j][j] = complex(long, 0)
		for i := range q {
			q[i][j] *= complex(1/long, 0)
		}
	}
	for j := range w {
		w[j] = complex(1, float64(j)/support) // nothing special
	}
	for range 3 {
		for j := range w { // R' y = w
			for k := range j {
				w[j] -= cmplx.Conj(r[k][j]) * w[k]
			}
			w[j] /= r[j][j]
		}
		long := 0.0
		for j := support - 1; j >= 0; j-- { // R w = y
			for k := j + 1; k < support; k++ {
				w[j] -= r[j][k] * w[k]
			}
			w[j] /= r[j][j]
			long = max(long, Size1(w[j]))
		}
		for j := range w {
			w[j] *= complex(1/long, 0)
		}
	}
	return w
}
