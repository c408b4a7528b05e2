package draws

import (
	"sync"

	"hushwake/source/cores"
	"hushwake/source/spectrum"
	"hushwake/source/vector"
)

// chunk is the draws that one goroutine takes at a time: fixed, so that nothing depends on the cores, and so few that the
// columns stay near.
const chunk = 128

// buffers are what one goroutine works in.
type buffers struct {
	sum          [chunk]float64
	rows         [][]float64 // terms as they are drawn, mixes, then columns
	columns      [][]float64
	values, near []float64
	used         int // of near
}

// spare keeps buffers that are free.
var spare = sync.Pool{New: func() any { return new(buffers) }}

// run writes all levels of the plan in every draw, dB.
func (p *plan) run(z, out [][]float64) {
	if len(out) == 0 {
		return
	}
	n := len(out[0])
	cores.Each((n+chunk-1)/chunk, func(c int) {
		w := spare.Get().(*buffers)
		defer spare.Put(w)
		w.levels(p, z, c*chunk, min((c+1)*chunk, n), out)
	})
}

// fill works out the columns in the draws from to to: those wanted, by their place behind the mixes; nil = all.
func (w *buffers) fill(p *plan, z [][]float64, from, to int, wanted []bool) {
	n, own := to-from, len(p.mixes)+len(p.columns)
	if cap(w.values) < own*n {
		w.values = make([]float64, own*chunk)
	}
	w.rows = w.rows[:0]
	for _, row := range z {
		if row != nil {
			row = row[from:to]
		}
		w.rows = append(w.rows, row)
	}
	for i := range own {
		w.rows = append(w.rows, w.values[i*n:(i+1)*n])
	}
	for i, s := range p.mixes {
		if wanted != nil && !wanted[i] {
			continue
		}
		s.write(w.rows[len(z)+i], w.rows)
	}
	w.columns = w.rows[len(z)+len(p.mixes):]
	for i, s := range p.columns {
		if wanted != nil && !wanted[len(p.mixes)+i] {
			continue
		}
		s.write(w.columns[i], w.rows)
		vector.Exp(w.columns[i])
	}
}

// some takes a row in some draws; it stands until used is set back.
func (w *buffers) some(row []float64, of []int) []float64 {
	if w.used+len(of) > len(w.near) { // what was given out stays where it is
		w.near, w.used = make([]float64, max(2*len(w.near), 64*len(of))), 0
	}
	out := w.near[w.used : w.used+len(of)]
	w.used += len(of)
	for i, d := range of {
		out[i] = row[d]
	}
	return out
}

// levels writes the levels of the draws from to to.
func (w *buffers) levels(p *plan, z [][]float64, from, to int, out [][]float64) {
	w.fill(p, z, from, to, nil)
	for _, v := range out {
		clear(v[from:to])
	}
	for i := range p.takes {
		t, rest := &p.takes[i], w.sum[:to-from]
		t.rest.write(rest, w.columns)
		vector.AddProduct(out[t.listener][from:to], rest, w.columns[t.common])
	}
	for _, v := range out {
		for d, e := range v[from:to] {
			v[from+d] = spectrum.Level(e)
		}
	}
}

// write writes the sum for each draw of a chunk.
func (s *sum) write(to []float64, z [][]float64) { vector.Set(to, z, s.keys, s.factors) }
