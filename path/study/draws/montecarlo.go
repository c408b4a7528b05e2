package draws

import (
	"errors"
	"fmt"
	"math"
	rand "math/rand/v2"
	"runtime"
	"sort"
	"sync"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

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
	Level     float64  // dB(A), at the mean of the terms
	Low, High float64  // dB(A), 10th and 90th percentile
	Median    float64  // dB(A); over Level where many routes of their own doubt add up
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

// MonteCarlo draws the terms by a Latin hypercube (McKay, Beckman and Conover 1979) from the belief
// and gives bands and probabilities. The line's curves are not computed anew in a draw: a route's
// bands move linearly with the terms, and only the energy sum is exact. The same seed gives the same
// bits on any number of cores.
func (m *Model) MonteCarlo(b Belief, d Options) (Spread, error) {
	if d.N == 0 {
		d.N = DefaultNumber
	}
	if d.Seed == 0 {
		d.Seed = DefaultSeed
	}
	if d.N < 100 || d.N > mostDraws {
		return Spread{}, fmt.Errorf("%d draws: between 100 and %d are possible\nhint: leave out --draws for %d", d.N, mostDraws, DefaultNumber)
	}
	z, err := m.terms(b, d)
	if err != nil {
		return Spread{}, err
	}
	levels, factors := m.run(z, d.N)
	return m.collect(b, d, levels, factors), nil
}

// terms gives the values of the terms, z[term][draw]. Each term has a generator of its own, so that a
// further term of another kind leaves the draws of the others as they are.
func (m *Model) terms(b Belief, d Options) ([][]float64, error) {
	strata := make([]float64, d.N) // the middle of each of n slices of equal probability
	for i := range strata {
		strata[i] = distuv.UnitNormal.Quantile((float64(i) + 0.5) / float64(d.N))
	}
	u, seeds := make([][]float64, len(m.Terms)), m.streams()
	Parallel(len(u), func(k int) {
		r := rand.New(rand.NewPCG(d.Seed, seeds[k]))
		u[k] = append([]float64(nil), strata...)
		r.Shuffle(d.N, func(i, j int) { u[k][i], u[k][j] = u[k][j], u[k][i] })
	})
	if b.Cov == nil {
		return shifted(u, b.Mean), nil
	}
	return correlated(u, b)
}

func shifted(u [][]float64, mean []float64) [][]float64 {
	for k := range u {
		if k < len(mean) && mean[k] != 0 {
			for i := range u[k] {
				u[k][i] += mean[k]
			}
		}
	}
	return u
}

// correlated gives z = mean + L u with L L' = Cov; terms beyond the belief stay unit normals.
func correlated(u [][]float64, b Belief) ([][]float64, error) {
	var c mat.Cholesky
	if !c.Factorize(b.Cov) {
		return nil, errors.New("the covariance of the terms is not positive definite")
	}
	var l mat.TriDense
	c.LTo(&l)
	n, _ := l.Dims()
	z := make([][]float64, len(u))
	Parallel(len(u), func(i int) {
		if i >= n {
			z[i] = u[i]
			return
		}
		z[i] = make([]float64, len(u[i]))
		for d := range z[i] {
			z[i][d] = b.Mean[i]
		}
		for j := 0; j <= i; j++ {
			if f := l.At(i, j); f != 0 {
				for d, v := range u[j] {
					z[i][d] += f * v
				}
			}
		}
	})
	return z, nil
}

// run gives every level and back-pressure factor for every draw: [layout][listener or exhaust][draw].
func (m *Model) run(z [][]float64, n int) (levels, factors [][][]float64) {
	for _, l := range m.Layouts {
		levels = append(levels, rows(len(l.Listeners), n))
		factors = append(factors, rows(len(l.Exhausts), n))
	}
	fast := m.prepared()
	Parallel((n+chunk-1)/chunk, func(c int) {
		from, to := c*chunk, min((c+1)*chunk, n)
		w := newWork()
		for i, l := range m.Layouts {
			for j := range l.Listeners {
				w.levels(fast[i][j], z, from, levels[i][j][from:to])
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
	flat   sum
	shaped [spectrum.N]sum
	bands  spectrum.Bands // A-weighted, nepers
}

// sum is a sum of terms with factors.
type sum struct {
	keys    []int
	factors []float64
}

func (s *sum) put(key int, factor float64) {
	if factor != 0 {
		s.keys, s.factors = append(s.keys, key), append(s.factors, factor)
	}
}

const neper = math.Ln10 / 10

func (m *Model) prepared() [][][]preparedRoute {
	all := make([][][]preparedRoute, len(m.Layouts))
	for i, l := range m.Layouts {
		for _, h := range l.Listeners {
			var routes []preparedRoute
			for _, r := range h.Routes {
				routes = append(routes, r.prepared())
			}
			all[i] = append(all[i], routes)
		}
	}
	return all
}

func (r *Route) prepared() (f preparedRoute) {
	for b, v := range r.Bands.Plus(r.AWeight) {
		f.bands[b] = v * neper
	}
	for i, k := range r.Keys {
		if r.SD[i] == spectrum.Fill(r.SD[i][0]) {
			f.flat.put(k, r.SD[i][0]*neper)
			continue
		}
		for b, v := range r.SD[i] {
			f.shaped[b].put(k, v*neper)
		}
	}
	return f
}

type buffers struct{ flat, band, sum [chunk]float64 }

func newWork() *buffers { return &buffers{} }

// levels writes the level in dB(A) of each draw of a chunk to out.
func (w *buffers) levels(routes []preparedRoute, z [][]float64, from int, out []float64) {
	n := len(out)
	flat, band, sum := w.flat[:n], w.band[:n], w.sum[:n]
	clear(sum)
	for i := range routes {
		r := &routes[i]
		clear(flat)
		r.flat.add(flat, z, from)
		still := 0.0 // energy of the bands that move with the whole route
		for b := range r.bands {
			s := &r.shaped[b]
			if len(s.keys) == 0 {
				still += math.Exp(r.bands[b])
				continue
			}
			for d, v := range flat {
				band[d] = v + r.bands[b]
			}
			s.add(band, z, from)
			for d, v := range band {
				sum[d] += exponential(v)
			}
		}
		if still > 0 {
			for d, v := range flat {
				sum[d] += still * exponential(v)
			}
		}
	}
	for d, v := range sum {
		out[d] = spectrum.Level(v)
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
		addScaled(to, f[i], at(i))
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
