package draws

import (
	"math"
	"runtime"
	"sort"
	"sync"

	"hushwake/source/spectrum"
)

// DefaultDraws is the number of draws when none is asked for; DefaultSeed likewise.
const (
	DefaultNumber = 10000
	DefaultSeed   = 1
	mostDraws     = 1000000
	chunk         = 500 // draws that one goroutine takes at a time; fixed, so that nothing depends on the cores
)

// Options is a number of draws and a seed; zero means the default.
type Options struct {
	N    int
	Seed uint64
}

// LevelSpread is one level with its band.
type LevelSpread struct {
	Listener  string
	Level     float64  // dB(A), the median of the draws
	Low, High float64  // dB(A), 10th and 90th percentile
	SD        float64  // dB
	OverLimit *float64 // probability; nil = no limit stated
	Quietest  float64  // probability that this layout is the quietest here; 0 for a refused one
}

// PressureSpread is the rated back pressure of one exhaust with its band, Pa.
type PressureSpread struct {
	Engine           string
	Rated, Low, High float64
	OverLimit        *float64 // probability; nil = no limit stated
}

// LayoutSpread is one layout.
type LayoutSpread struct {
	Name             string
	Listeners        []LevelSpread
	Exhausts         []PressureSpread
	OverBackPressure *float64 // probability that any exhaust is over its limit; nil = none stated
}

// Spread is the outcome of the draws.
type Spread struct {
	Draws   Options
	Layouts []LayoutSpread
}

// MonteCarlo draws the terms without any reading and gives bands and probabilities.
func (m *Model) MonteCarlo(d Options) (Spread, error) {
	e, err := m.Draw(d)
	if err != nil {
		return Spread{}, err
	}
	return m.Spread(e), nil
}

// Spread gives the bands and probabilities of an ensemble. The line's curves are not computed anew
// in a draw: a route's bands move linearly with the terms, and only the energy sum is exact.
func (m *Model) Spread(e *Ensemble) Spread { return m.SpreadOf(m.Run(e)) }

// Sample is a model in every draw of an ensemble: levels in dB(A), [layout][listener][draw], and the
// factors of back pressures, [layout][exhaust][draw].
type Sample struct {
	Levels, Factors [][][]float64
	of              *Ensemble
}

// Run works the model out in every draw.
func (m *Model) Run(e *Ensemble) Sample {
	levels, factors := m.run(e.Terms(m), e.Draws.N)
	return Sample{levels, factors, e}
}

// SpreadOf gives the bands and probabilities of a sample of the model.
func (m *Model) SpreadOf(s Sample) Spread { return m.collect(s.of, s.Levels, s.Factors) }

// Only is the sample of some layouts, at some of their listeners.
func (s Sample) Only(layouts []int, listeners []int) Sample {
	out := Sample{of: s.of}
	for _, i := range layouts {
		var at [][]float64
		for _, j := range listeners {
			at = append(at, s.Levels[i][j])
		}
		out.Levels, out.Factors = append(out.Levels, at), append(out.Factors, s.Factors[i])
	}
	return out
}

// Levels writes the level at the place with weighting w in every draw, dB; z holds the draws of the
// terms that the routes know, by their number.
func (h *Listener) Levels(z [][]float64, w spectrum.Bands, out []float64) {
	var routes []preparedRoute
	for _, r := range h.Routes {
		routes = append(routes, r.prepared(w))
	}
	Parallel((len(out)+chunk-1)/chunk, func(c int) {
		from, to := c*chunk, min((c+1)*chunk, len(out))
		newWork().levels(routes, z, from, out[from:to])
	})
}

// run gives every level and back-pressure factor for every draw: [layout][listener or exhaust][draw].
func (m *Model) run(z [][]float64, n int) (levels, factors [][][]float64) {
	for _, l := range m.Layouts {
		levels = append(levels, rows(len(l.Listeners), n))
		factors = append(factors, rows(len(l.Exhausts), n))
	}
	prepared := m.prepared()
	Parallel((n+chunk-1)/chunk, func(c int) {
		from, to := c*chunk, min((c+1)*chunk, n)
		w := newWork()
		for i, l := range m.Layouts {
			for j := range l.Listeners {
				w.levels(prepared[i][j], z, from, levels[i][j][from:to])
			}
			for j, p := range l.Exhausts {
				w.factors(p, z, from, factors[i][j][from:to])
			}
		}
	})
	return levels, factors
}

func rows(n, width int) [][]float64 {
	r := make([][]float64, n)
	for i := range r {
		r[i] = make([]float64, width)
	}
	return r
}

// preparedRoute is a route made ready for many draws: terms that are equal in all bands move the whole
// route at once, the others band by band. Values are in nepers of energy.
type preparedRoute struct {
	flatKeys []int
	flat     []float64
	keys     []int
	shaped   []spectrum.Bands
	bands    spectrum.Bands // weighted, nepers
}

const neper = math.Ln10 / 10

// nothing is a band's level in nepers under which no doubt lifts it to be heard: that of a band weighed out.
const nothing = 1.5 * spectrum.Silent * neper

func (m *Model) prepared() [][][]preparedRoute {
	all := make([][][]preparedRoute, len(m.Layouts))
	for i, l := range m.Layouts {
		for _, h := range l.Listeners {
			var routes []preparedRoute
			for _, r := range h.Routes {
				routes = append(routes, r.prepared(spectrum.A))
			}
			all[i] = append(all[i], routes)
		}
	}
	return all
}

func (r *Route) prepared(w spectrum.Bands) (f preparedRoute) {
	if w == spectrum.A {
		w = r.AWeight
	}
	for b, v := range r.Bands.Plus(w) {
		f.bands[b] = v * neper
	}
	for i, k := range r.Keys {
		if r.SD[i] == spectrum.Fill(r.SD[i][0]) {
			f.flatKeys, f.flat = append(f.flatKeys, k), append(f.flat, r.SD[i][0]*neper)
			continue
		}
		s := r.SD[i]
		for b := range s {
			s[b] *= neper
		}
		f.keys, f.shaped = append(f.keys, k), append(f.shaped, s)
	}
	return f
}

type buffers struct{ flat, band, sum [chunk]float64 }

func newWork() *buffers { return &buffers{} }

// levels writes the weighted level in dB of each draw of a chunk to out.
func (w *buffers) levels(routes []preparedRoute, z [][]float64, from int, out []float64) {
	n := len(out)
	flat, band, sum := w.flat[:n], w.band[:n], w.sum[:n]
	clear(sum)
	for i := range routes {
		r := &routes[i]
		clear(flat)
		for j, k := range r.flatKeys {
			addScaled(flat, r.flat[j], z[k][from:from+n])
		}
		if len(r.keys) == 0 {
			r.addFlat(sum, flat)
			continue
		}
		for b := range r.bands {
			if r.bands[b] < nothing {
				continue
			}
			for d, v := range flat {
				band[d] = v + r.bands[b]
			}
			for j, k := range r.keys {
				if s := r.shaped[j][b]; s != 0 {
					addScaled(band, s, z[k][from:from+n])
				}
			}
			for d, v := range band {
				sum[d] += math.Exp(v)
			}
		}
	}
	for d, v := range sum {
		out[d] = spectrum.Level(v)
	}
}

// addFlat adds a route whose bands all move alike.
func (r *preparedRoute) addFlat(sum, flat []float64) {
	e := 0.0
	for _, v := range r.bands {
		e += math.Exp(v)
	}
	for d, v := range flat {
		sum[d] += e * math.Exp(v)
	}
}

func addScaled(to []float64, f float64, v []float64) {
	v = v[:len(to)]
	for d := range to {
		to[d] += f * v[d]
	}
}

func (w *buffers) factors(p *Exhaust, z [][]float64, from int, out []float64) {
	clear(out)
	for i, k := range p.Keys {
		addScaled(out, p.SD[i], z[k][from:from+len(out)])
	}
	for d, v := range out {
		out[d] = math.Exp(v)
	}
}

// Parallel calls f(0..n-1) on all cores; f must write to places of its own.
func Parallel(n int, f func(i int)) {
	next := make(chan int, n)
	for i := 0; i < n; i++ {
		next <- i
	}
	close(next)
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for i := range next {
				f(i)
			}
		})
	}
	wg.Wait()
}

// quantile interpolates linearly in sorted values, position p(n-1).
func quantile(sorted []float64, p float64) float64 {
	x := p * float64(len(sorted)-1)
	i := min(int(x), len(sorted)-2)
	return sorted[i] + (x-float64(i))*(sorted[i+1]-sorted[i])
}

func sorted(v []float64) []float64 {
	s := append([]float64(nil), v...)
	sort.Float64s(s)
	return s
}
