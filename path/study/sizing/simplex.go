package sizing

import (
	"math"
	"sort"
)

// vertex is a corner of the simplex.
type vertex struct {
	x []float64
	f float64
}

// simplex walks downhill by the method of Nelder and Mead (Computer Journal 7, 1965) with the usual
// coefficients: reflection 1, expansion 2, contraction 1/2, shrinkage 1/2. f remembers its best; the
// walk ends when stop says so or the corners agree within a thousandth.
func simplex(f func([]float64) float64, start []float64, size float64, stop func() bool) {
	v := corners(f, start, size)
	n := len(start)
	for range 400 {
		sort.SliceStable(v, func(i, j int) bool { return v[i].f < v[j].f })
		if stop() || v[n].f-v[0].f < 1e-3 && simplexSize(v) < 1e-3 {
			return
		}
		c := centre(v[:n])
		r := along(f, c, v[n].x, -1)
		switch {
		case r.f < v[0].f:
			if e := along(f, c, v[n].x, -2); e.f < r.f {
				r = e
			}
			v[n] = r
		case r.f < v[n-1].f:
			v[n] = r
		default:
			t := 0.5
			if r.f < v[n].f {
				t = -0.5
			}
			if k := along(f, c, v[n].x, t); k.f < math.Min(r.f, v[n].f) {
				v[n] = k
				continue
			}
			shrink(f, v)
		}
	}
}

func corners(f func([]float64) float64, start []float64, size float64) []vertex {
	v := []vertex{{append([]float64(nil), start...), f(start)}}
	for i := range start {
		x := append([]float64(nil), start...)
		if x[i] += size; x[i] > 1 {
			x[i] -= 2 * size
		}
		v = append(v, vertex{x, f(x)})
	}
	return v
}

func centre(v []vertex) []float64 {
	c := make([]float64, len(v[0].x))
	for _, p := range v {
		for i := range c {
			c[i] += p.x[i] / float64(len(v))
		}
	}
	return c
}

// along is the point c + t (x - c).
func along(f func([]float64) float64, c, x []float64, t float64) vertex {
	p := make([]float64, len(c))
	for i := range p {
		p[i] = c[i] + t*(x[i]-c[i])
	}
	return vertex{p, f(p)}
}

func shrink(f func([]float64) float64, v []vertex) {
	for i := 1; i < len(v); i++ {
		v[i] = along(f, v[0].x, v[i].x, 0.5)
	}
}

func simplexSize(v []vertex) float64 {
	d := 0.0
	for _, p := range v[1:] {
		for i := range p.x {
			d = math.Max(d, math.Abs(p.x[i]-v[0].x[i]))
		}
	}
	return d
}
