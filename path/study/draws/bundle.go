package draws

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/floats"

	"hushwake/source/spectrum"
)

// bundle is routes to any of the levels asked for that begin with the same doubt: what they all have in common is
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

// placed is a route to one of the levels asked for, with what of it tells there.
type placed struct {
	*Route
	Question
	listener int
	telling
}

// bundled sorts the routes to some levels by the doubt that they begin with; A weighs what sits in a band.
// What does not tell in the n draws of z is left out.
func bundled(asked []Question, z [][]float64, n int) []bundle {
	var order []doubt
	alike, most := map[doubt][]placed{}, newMost(z, n)
	for j, q := range asked {
		tells := most.tells(q.At, q.Weight)
		for i, r := range q.At.Routes {
			first := doubt{key: -1}
			if len(r.Keys) > 0 {
				first = doubt{r.Keys[0], r.SD[0]}
			}
			if alike[first] == nil {
				order = append(order, first)
			}
			alike[first] = append(alike[first], placed{r, q, j, telling{tells[i], most}})
		}
	}
	out := make([]bundle, 0, len(order))
	for _, first := range order {
		if b := newBundle(alike[first]); len(b.routes) > 0 {
			out = append(out, b)
		}
	}
	return out
}

func newBundle(routes []placed) (b bundle) {
	met, all := map[doubt]int{}, telling{most: routes[0].most}
	for _, r := range routes {
		for i, k := range r.Keys {
			met[doubt{k, r.SD[i]}]++
		}
		for band, v := range r.share {
			all.share[band] += v
		}
	}
	shared := func(d doubt) bool { return met[d] == len(routes) }
	for i, k := range routes[0].Keys {
		if d := (doubt{k, routes[0].SD[i]}); shared(d) {
			for band := range d.sd {
				if all.moves(d, band) {
					b.common[band].put(k, d.sd[band])
				}
			}
		}
	}
	for _, r := range routes {
		if r.share != (spectrum.Bands{}) {
			b.routes = append(b.routes, r.prepared(shared))
		}
	}
	return b
}

// prepared is a route without the doubts that its bundle shares.
func (r placed) prepared(shared func(doubt) bool) (f preparedRoute) {
	f.listener = r.listener
	for b, v := range r.Bands.Plus(r.weight(r.Weight)) {
		if f.bands[b] = v * neper; r.share[b] == 0 {
			f.bands[b] = 2 * nothing
		}
	}
	for i, k := range r.Keys {
		switch d := (doubt{k, r.SD[i]}); {
		case shared(d):
		case d.sd == spectrum.Fill(d.sd[0]):
			f.flat.put(k, d.sd[0])
		default:
			for b, v := range d.sd {
				if r.moves(d, b) {
					f.shaped[b].put(k, v)
				}
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

// spare keeps buffers that are free.
var spare = sync.Pool{New: func() any { return new(buffers) }}

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
