package draws

import (
	"math"

	"gonum.org/v1/gonum/floats"

	"hushwake/source/spectrum"
)

// bundle is routes of a layout, at any listener, that begin with the same doubt: what they all have in common is
// added up once for each draw. Values are in nepers of energy.
type bundle struct {
	common [spectrum.N]sum
	routes []preparedRoute
}

// preparedRoute is the rest of a route: terms that are equal in all bands, and those by band.
type preparedRoute struct {
	listener int
	flat     sum
	shaped   [spectrum.N]sum
	bands    spectrum.Bands // weighted
}

// sum is a sum of terms with factors.
type sum struct {
	keys    []int
	factors []float64
}

func (s *sum) put(key int, factor float64) {
	if factor != 0 {
		s.keys, s.factors = append(s.keys, key), append(s.factors, factor*neper)
	}
}

const neper = math.Ln10 / 10

// nothing is a band's level in nepers under which no doubt lifts it to be heard: that of a band weighed out.
const nothing = 1.5 * spectrum.Silent * neper

// doubt is a term with what it does to a route.
type doubt struct {
	key int
	sd  spectrum.Bands
}

// bundled sorts the routes of a layout, weighted by w, by the doubt that they begin with; A weighs what sits in a band.
func bundled(l *Layout, w spectrum.Bands) []bundle {
	var order []doubt
	alike := map[doubt][]*Route{}
	at := map[*Route]int{}
	for j, h := range l.Listeners {
		for _, r := range h.Routes {
			first := doubt{key: -1}
			if len(r.Keys) > 0 {
				first = doubt{r.Keys[0], r.SD[0]}
			}
			if alike[first] == nil {
				order = append(order, first)
			}
			alike[first], at[r] = append(alike[first], r), j
		}
	}
	out := make([]bundle, len(order))
	for i, first := range order {
		out[i] = newBundle(alike[first], at, w)
	}
	return out
}

func newBundle(routes []*Route, at map[*Route]int, w spectrum.Bands) (b bundle) {
	met := map[doubt]int{}
	for _, r := range routes {
		for i, k := range r.Keys {
			met[doubt{k, r.SD[i]}]++
		}
	}
	shared := func(d doubt) bool { return met[d] == len(routes) }
	for i, k := range routes[0].Keys {
		if d := (doubt{k, routes[0].SD[i]}); shared(d) {
			for band, v := range d.sd {
				b.common[band].put(k, v)
			}
		}
	}
	for _, r := range routes {
		p := r.prepared(w, shared)
		p.listener = at[r]
		b.routes = append(b.routes, p)
	}
	return b
}

// prepared is a route without the doubts that its bundle shares.
func (r *Route) prepared(w spectrum.Bands, shared func(doubt) bool) (f preparedRoute) {
	if w == spectrum.A {
		w = r.AWeight
	}
	for b, v := range r.Bands.Plus(w) {
		f.bands[b] = v * neper
	}
	for i, k := range r.Keys {
		switch sd := r.SD[i]; {
		case shared(doubt{k, sd}):
		case sd == spectrum.Fill(sd[0]):
			f.flat.put(k, sd[0])
		default:
			for b, v := range sd {
				f.shaped[b].put(k, v)
			}
		}
	}
	return f
}

// buffers are what one goroutine works in.
type buffers struct {
	flat, band [chunk]float64
	common     [spectrum.N][chunk]float64
}

// levels writes the weighted levels in dB of the draws from to to at each listener of a layout to out.
func (w *buffers) levels(bundles []bundle, z [][]float64, from, to int, out [][]float64) {
	n := to - from
	for _, v := range out {
		clear(v[from:to])
	}
	for i := range bundles {
		b := &bundles[i]
		for band := range b.common {
			c := w.common[band][:n]
			clear(c)
			b.common[band].add(c, z, from)
		}
		for k := range b.routes {
			r := &b.routes[k]
			w.energy(r, z, from, out[r.listener][from:to])
		}
	}
	for _, v := range out {
		for d, e := range v[from:to] {
			v[from+d] = spectrum.Level(e)
		}
	}
}

// energy adds the energy of a route to each draw of a chunk.
func (w *buffers) energy(r *preparedRoute, z [][]float64, from int, to []float64) {
	flat, band := w.flat[:len(to)], w.band[:len(to)]
	clear(flat)
	r.flat.add(flat, z, from)
	for b, level := range r.bands {
		if level < nothing {
			continue
		}
		c := w.common[b][:len(to)]
		for d, v := range flat {
			band[d] = v + c[d] + level
		}
		r.shaped[b].add(band, z, from)
		addExponentials(to, band)
	}
}

// add adds the sum for each draw of a chunk, four terms at a time.
func (s *sum) add(to []float64, z [][]float64, from int) {
	k, f := s.keys, s.factors
	at := func(i int) []float64 { return z[k[i]][from : from+len(to)] }
	i := 0
	for ; i+4 <= len(k); i += 4 {
		a, b, c, e := at(i), at(i+1), at(i+2), at(i+3)
		fa, fb, fc, fe := f[i], f[i+1], f[i+2], f[i+3]
		a, b, c, e = a[:len(to)], b[:len(to)], c[:len(to)], e[:len(to)]
		for d := range to {
			to[d] += (fa*a[d] + fb*b[d]) + (fc*c[d] + fe*e[d])
		}
	}
	for ; i < len(k); i++ {
		floats.AddScaled(to, f[i], at(i))
	}
}
