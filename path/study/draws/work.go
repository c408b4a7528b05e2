package draws

import (
	"sync"

	"gonum.org/v1/gonum/floats"

	"hushwake/source/spectrum"
)

// chunk is the draws that one goroutine takes at a time: fixed, so that nothing depends on the cores, and so few that all
// columns of a band stay near.
const chunk = 128

// buffers are what one goroutine works in.
type buffers struct {
	sum            [chunk]float64
	terms, columns [][]float64
	values         []float64
	n              int // draws
}

// spare keeps buffers that are free.
var spare = sync.Pool{New: func() any { return new(buffers) }}

// run writes all levels of the plan in every draw, dB.
func (p *plan) run(z, out [][]float64) {
	if len(out) == 0 {
		return
	}
	n := len(out[0])
	Parallel((n+chunk-1)/chunk, func(c int) {
		w := spare.Get().(*buffers)
		defer spare.Put(w)
		w.levels(p, z, c*chunk, min((c+1)*chunk, n), out)
	})
}

// begin works out the mixes in the draws from to to.
func (w *buffers) begin(p *plan, z [][]float64, from, to int) {
	most := 0
	for _, c := range p.columns {
		most = max(most, len(c))
	}
	if w.n = to - from; cap(w.values) < (len(p.mixes)+most)*w.n {
		w.values = make([]float64, (len(p.mixes)+most)*chunk)
	}
	w.terms = w.terms[:0]
	for _, row := range z {
		if row != nil {
			row = row[from:to]
		}
		w.terms = append(w.terms, row)
	}
	for i := range p.mixes {
		v := w.value(i)
		p.mixes[i].write(v, w.terms)
		w.terms = append(w.terms, v)
	}
}

func (w *buffers) value(i int) []float64 { return w.values[i*w.n : (i+1)*w.n] }

// band works out the columns of a band.
func (w *buffers) band(p *plan, b int) {
	w.columns = w.columns[:0]
	for i := range p.columns[b] {
		c := w.value(len(p.mixes) + i)
		p.columns[b][i].write(c, w.terms)
		exponentials(c)
		w.columns = append(w.columns, c)
	}
}

// levels writes the levels of the draws from to to.
func (w *buffers) levels(p *plan, z [][]float64, from, to int, out [][]float64) {
	w.begin(p, z, from, to)
	for _, v := range out {
		clear(v[from:to])
	}
	for b := range p.takes {
		w.band(p, b)
		for i := range p.takes[b] {
			t, rest := &p.takes[b][i], w.sum[:w.n]
			t.rest.write(rest, w.columns)
			to, c := out[t.listener][from:to], w.columns[t.common]
			for d, v := range rest {
				to[d] += v * c[d]
			}
		}
	}
	for _, v := range out {
		for d, e := range v[from:to] {
			v[from+d] = spectrum.Level(e)
		}
	}
}

// write writes the sum for each draw of a chunk.
func (s *sum) write(to []float64, z [][]float64) {
	clear(to)
	s.add(to, z)
}

// add adds it, four terms at a time.
func (s *sum) add(to []float64, z [][]float64) {
	k, f := s.keys, s.factors
	i := 0
	for ; i+4 <= len(k); i += 4 {
		a, b, c, e := z[k[i]][:len(to)], z[k[i+1]][:len(to)], z[k[i+2]][:len(to)], z[k[i+3]][:len(to)]
		fa, fb, fc, fe := f[i], f[i+1], f[i+2], f[i+3]
		for d := range to {
			to[d] += (fa*a[d] + fb*b[d]) + (fc*c[d] + fe*e[d])
		}
	}
	for ; i < len(k); i++ {
		floats.AddScaled(to, f[i], z[k[i]])
	}
}
