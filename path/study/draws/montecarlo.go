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
	bundles := make([][]bundle, len(m.Layouts))
	for i, l := range m.Layouts {
		bundles[i] = bundled(l)
	}
	Parallel((n+chunk-1)/chunk, func(c int) {
		from, to := c*chunk, min((c+1)*chunk, n)
		w := new(buffers)
		for i, l := range m.Layouts {
			w.levels(bundles[i], z, from, to, levels[i])
			for j, p := range l.Exhausts {
				drawFactors(p, z, from, factors[i][j][from:to])
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

func addScaled(to []float64, f float64, v []float64) {
	v = v[:len(to)]
	for d := range to {
		to[d] += f * v[d]
	}
}

func drawFactors(p *Exhaust, z [][]float64, from int, out []float64) {
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
