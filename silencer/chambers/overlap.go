package chambers

import (
	"fmt"
	"hushwake/source/cores"
	"math"
)

// overlap holds the projections of a mouth's functions on a set of modes: row by row for the modes that are exact in
// frequency, summed over the others at their static value 1/gamma.
type overlap struct {
	kept    int
	couple  []float64   // kept x functions
	squares []float64   // kept x upper triangle of the products of the functions
	static  []float64   // the same, summed
	series  [][]float64 // of an endless pipe, the kept ones from nearModes on: sums by powers of kc^2 in place of their terms
}

// Of an endless pipe all modes are kept. Those from nearModes on are taken by powers of kc^2 up to seriesTo times the
// radial wavenumber of the first of them.
const (
	nearModes = 8
	seriesTo  = 0.4
)

// row is the projection of the n functions on a kept mode; both faces of a room keep the same number.
func (o *overlap) row(m, n int) []float64 { return o.couple[m*n : (m+1)*n] }

// square is the products of that row with itself, upper triangle row by row.
func (o *overlap) square(m, n int) []float64 {
	t := n * (n + 1) / 2
	return o.squares[m*t : (m+1)*t]
}

// newOverlap keeps the modes that feel the far end, gamma*length < 12, and at least least.
func newOverlap(m radialModes, bases []edgeBasis, least int, length float64) overlap {
	n := 0
	for _, b := range bases {
		n += len(b.f)
	}
	o := overlap{kept: min(least, len(m.gamma)), static: make([]float64, n*(n+1)/2)}
	for o.kept < len(m.gamma) && m.gamma[o.kept]*length < 12 {
		o.kept++
	}
	o.couple, o.squares = make([]float64, o.kept*n), make([]float64, o.kept*len(o.static))
	o.project(m, bases[0].exponent, projections(m, bases, n), n)
	return o
}

func (o *overlap) project(m radialModes, exponent float64, rows []float64, n int) {
	for i := range m.gamma {
		row := rows[i*n : (i+1)*n]
		if i < o.kept {
			copy(o.couple[i*n:], row)
			addSquare(o.square(i, n), row, 1)
		} else {
			addSquare(o.static, row, 1/m.gamma[i])
		}
		if i >= len(m.gamma)/2 && i > 0 {
			addSquare(o.static, row, beyond(exponent)/m.gamma[i])
		}
	}
}

// addSeries sums 1/sqrt(gamma^2 - kc^2) = (1 + x/2 + 3 x^2/8 + ...)/gamma, x = kc^2/gamma^2, over the modes from nearModes
// on; what its next power leaves out is 0.3 x^4 of a mode.
func (o *overlap) addSeries(m radialModes, n int) {
	for i := nearModes; i < o.kept; i++ {
		if o.series == nil {
			o.series = [][]float64{make([]float64, len(o.static)), make([]float64, len(o.static)), make([]float64, len(o.static)), make([]float64, len(o.static))}
		}
		f := 1 / m.gamma[i]
		for p, to := range o.series {
			for j, v := range o.square(i, n) {
				to[j] += f * v
			}
			f *= (float64(p) + 0.5) / (float64(p) + 1) / (m.gamma[i] * m.gamma[i])
		}
	}
}

// knownProjections are for runs that change lengths too.
var knownProjections = cores.Memo[string, []float64]{Most: memoSize}

// projections are those of the functions on all modes, row by row; openings alike share them.
func projections(m radialModes, bases []edgeBasis, n int) []float64 {
	key := fmt.Sprint(m.inner, m.outer, len(m.gamma))
	for _, b := range bases {
		key += fmt.Sprint(" ", b.inner, b.outer, len(b.f), b.exponent, len(b.r))
	}
	rows, _ := knownProjections.Get(key, func() ([]float64, error) {
		rows := make([]float64, n*len(m.gamma))
		for i := range m.gamma {
			at := i * n
			for _, b := range bases {
				b.overlap(m, i, rows[at:at+len(b.f)])
				at += len(b.f)
			}
		}
		return rows, nil
	})
	return rows
}

// beyond is the sum over the modes left out, as a share of that over the last half of those taken: at an edge where
// the velocity goes as distance^-p the terms go as gamma^(2p-3), so the rest of the sum as gamma^(2p-2).
func beyond(exponent float64) float64 { return 1 / (math.Pow(2, 2-2*exponent) - 1) }

// addSquare adds f times the products of a row with itself to an upper triangle.
func addSquare(to, row []float64, f float64) {
	for i, a := range row {
		for j, b := range row[i:] {
			to[j] += f * a * b
		}
		to = to[len(row)-i:]
	}
}
