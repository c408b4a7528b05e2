package chambers

import (
	"hushwake/silencer/fourpole"
	"hushwake/source/vector"
)

// blocks is a dense complex system whose unknowns come in blocks that only meet their neighbours: what stands along a
// duct. Each row holds the coefficients of the block before, its own, those of the block behind, and two right-hand
// sides. Storage is kept for reuse.
type blocks struct {
	list  []block
	store []complex128
}

// block is n rows of before + n + behind + sides coefficients.
type block struct {
	before, n, behind int
	skip              int // unknowns of the block before that stand ahead of those it meets
	a                 []complex128
}

// meeting is what two neighbours know of each other: the second meets some unknowns of the first from one on, the first
// the first few of the second.
type meeting struct{ skip, first, second int }

const sides = 2 // right-hand sides

func (b *block) cols() int { return b.before + b.n + b.behind + sides }

// row is all of a row; its first coefficient belongs to the block before.
func (b *block) row(i int) []complex128 {
	c := b.cols()
	return b.a[i*c : (i+1)*c : (i+1)*c]
}

// own is the part of a row that meets its own block.
func (b *block) own(i int) []complex128 { return b.row(i)[b.before : b.before+b.n] }

// rhs is the right-hand sides of a row, the solutions once solved.
func (b *block) rhs(i int) []complex128 { return b.row(i)[b.before+b.n+b.behind:] }

// reset makes room for blocks of these sizes, all zero; meetings are those of neighbours, nil = each meets all of the other.
func (g *blocks) reset(sizes []int, meetings []meeting) {
	g.list = g.list[:0]
	total := 0
	for i, n := range sizes {
		b := block{n: n}
		switch {
		case i > 0 && meetings != nil:
			b.skip, b.before = meetings[i-1].skip, meetings[i-1].first
		case i > 0:
			b.before = sizes[i-1]
		}
		switch {
		case i+1 < len(sizes) && meetings != nil:
			b.behind = meetings[i].second
		case i+1 < len(sizes):
			b.behind = sizes[i+1]
		}
		g.list = append(g.list, b)
		total += n * b.cols()
	}
	if cap(g.store) < total {
		g.store = make([]complex128, total)
	}
	g.store = g.store[:total]
	clear(g.store)
	at := 0
	for i := range g.list {
		b := &g.list[i]
		b.a = g.store[at : at+b.n*b.cols()]
		at += b.n * b.cols()
	}
}

// solve eliminates block after block, each with row scaling and partial pivoting within it; the solutions then stand
// in the right-hand sides. A pivot below a ten-thousandth of a millionth of its row, where the part before a block
// resonates by itself, is lifted to that.
func (g *blocks) solve() {
	for i := range g.list {
		b := &g.list[i]
		if i > 0 {
			b.reduce(&g.list[i-1])
		}
		b.eliminate()
	}
	for i := len(g.list) - 2; i >= 0; i-- {
		b, next := &g.list[i], &g.list[i+1]
		for r := range b.n {
			to := b.rhs(r)
			for k, f := range b.row(r)[b.before+b.n : b.before+b.n+b.behind] {
				if f != 0 {
					subtract(to, f, next.rhs(k))
				}
			}
		}
	}
}

// reduce takes the block before, already solved, out of the rows.
func (b *block) reduce(last *block) {
	tail := last.before + last.n
	for i := range b.n {
		row := b.row(i)
		own, rhs := row[b.before:b.before+last.behind], b.rhs(i)
		for k, f := range row[:b.before] {
			if f != 0 {
				from := last.row(b.skip + k)[tail:]
				vector.SubtractTimes(own, f, from)
				subtract(rhs, f, from[len(own):])
			}
		}
	}
}

// eliminate solves the rows for the block's own unknowns.
func (b *block) eliminate() {
	for i := range b.n {
		b.scale(i)
	}
	for k := range b.n {
		inv := b.pivot(k)
		from := b.row(k)[b.before+k:]
		from[0] = inv
		for i := k + 1; i < b.n; i++ {
			to := b.row(i)[b.before+k:]
			if to[0] != 0 {
				vector.SubtractTimes(to[1:], to[0]*inv, from[1:])
			}
		}
	}
	for k := b.n - 1; k >= 0; k-- {
		row := b.row(k)
		own, to := row[b.before:b.before+b.n], row[b.before+b.n:]
		for i := k + 1; i < b.n; i++ {
			vector.SubtractTimes(to, own[i], b.row(i)[b.before+b.n:])
		}
		for j := range to {
			to[j] *= own[k]
		}
	}
}

// scale brings the largest coefficient of a row's own block near 1.
func (b *block) scale(i int) {
	most := 0.0
	for _, z := range b.own(i) {
		if s := fourpole.Size1(z); s > most {
			most = s
		}
	}
	if most > 0 && (most > 2 || most < 0.5) {
		r, s := b.row(i)[b.before:], 1/most
		for j, z := range r {
			r[j] = complex(real(z)*s, imag(z)*s)
		}
	}
}

const leastPivot = 1e-10

// pivot brings the largest coefficient of column k to row k and gives its inverse.
func (b *block) pivot(k int) complex128 {
	best, most, c := k, -1.0, b.cols()
	for i := k; i < b.n; i++ {
		if s := fourpole.Size1(b.a[i*c+b.before+k]); s > most {
			best, most = i, s
		}
	}
	if best != k {
		x, y := b.row(best)[b.before:], b.row(k)[b.before:]
		for j := range x {
			x[j], y[j] = y[j], x[j]
		}
	}
	if most < leastPivot {
		return 1 / leastPivot
	}
	return fourpole.Inverse(b.a[k*c+b.before+k])
}

// subtract takes f times from off to, which is no longer than from and short.
func subtract(to []complex128, f complex128, from []complex128) {
	fr, fi := real(f), imag(f)
	from = from[:len(to)]
	for j, z := range from {
		x, y := real(z), imag(z)
		to[j] -= complex(fr*x-fi*y, fr*y+fi*x)
	}
}

// root is the square root of z with Im <= 0 or, for a real result, Re >= 0; the square of z must be a number.
func root(z complex128) complex128 {
	r := fourpole.Root(z)
	if imag(r) > 0 {
		return -r
	}
	return r
}
