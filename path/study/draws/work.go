package draws

import (
	"sync"

	"gonum.org/v1/gonum/floats"

	"hushwake/source/spectrum"
)

// chunk is the draws that one goroutine takes at a time: fixed, so that nothing depends on the cores, and so few that the
// columns stay near.
const chunk = 128

// buffers are what one goroutine works in.
type buffers struct {
	sum            [chunk]float64
	terms, columns [][]float64
	values, near   []float64
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

// fill works out the columns in the draws from to to.
func (w *buffers) fill(p *plan, z [][]float64, from, to int) {
	n, all := to-from, len(p.mixes)+len(p.columns)
	if cap(w.values) < all*n {
		w.values = make([]float64, all*chunk)
	}
	value := func(i int) []float64 { return w.values[i*n : (i+1)*n] }
	w.terms, w.columns = w.terms[:0], w.columns[:0]
	for _, row := range z {
		if row != nil {
			row = row[from:to]
		}
		w.terms = append(w.terms, row)
	}
	for i := range p.mixes {
		v := value(i)
		p.mixes[i].write(v, w.terms)
		w.terms = append(w.terms, v)
	}
	for i := range p.columns {
		v := value(len(p.mixes) + i)
		p.columns[i].write(v, w.terms)
		exponentials(v)
		w.columns = append(w.columns, v)
	}
}

// levels writes the levels of the draws from to to.
func (w *buffers) levels(p *plan, z [][]float64, from, to int, out [][]float64) {
	w.fill(p, z, from, to)
	for _, v := range out {
		clear(v[from:to])
	}
	for i := range p.takes {
		t, rest := &p.takes[i], w.sum[:to-from]
		t.rest.write(rest, w.columns)
		level, common := out[t.listener][from:to], w.columns[t.common]
		for d, v := range rest {
			level[d] += v * common[d]
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
