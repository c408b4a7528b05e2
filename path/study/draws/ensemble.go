package draws

import (
	"fmt"
	"hash/fnv"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"hushwake/path/study/draws/variates"
	"hushwake/source/cores"
)

// Ensemble is draws of named terms: all that is known of them. One serves every model of a boat, for
// a term is found by its key; so the same file and seed give a term the same values everywhere.
type Ensemble struct {
	Draws Options
	Moved bool // by readings
	at    map[string]int
	z     [][]float64 // [term][draw]
}

// Draw draws the terms of the model, unit normals of their own, by a Latin hypercube (McKay, Beckman
// and Conover 1979): what is known before any reading. The same seed gives the same bits on any
// number of cores.
func (m *Model) Draw(d Options) (*Ensemble, error) {
	if d.N == 0 {
		d.N = DefaultNumber
	}
	if d.Seed == 0 {
		d.Seed = DefaultSeed
	}
	if d.N < 100 || d.N > mostDraws {
		return nil, fmt.Errorf("%d draws: between 100 and %d are possible\nhint: leave out --draws for %d", d.N, mostDraws, DefaultNumber)
	}
	e := &Ensemble{Draws: d, at: map[string]int{}}
	e.z = d.hypercube(m.streams())
	for k, t := range m.Terms {
		e.at[t.Key] = k
	}
	return e, nil
}

// hypercube shuffles equal strata of the unit normal, a row for each seed.
func (d Options) hypercube(seeds []uint64) [][]float64 {
	strata := make([]float64, d.N) // the middle of each of n slices of equal probability
	for i := range strata {
		strata[i] = distuv.UnitNormal.Quantile((float64(i) + 0.5) / float64(d.N))
	}
	z := make([][]float64, len(seeds))
	cores.Each(len(z), func(k int) {
		z[k] = slices.Clone(strata)
		variates.Shuffle(z[k], d.Seed, seeds[k])
	})
	return z
}

// further tells the draws of a term that an ensemble lacks from those of one alike that it holds.
const further = 0x66757274686572

// Terms gives the draws of the model's terms, in their order. A term that the ensemble does not hold
// is drawn anew, a unit normal of its own.
func (e *Ensemble) Terms(m *Model) [][]float64 {
	z, seeds := make([][]float64, len(m.Terms)), []uint64(nil)
	var lacking []int
	for k, t := range m.Terms {
		if i, ok := e.at[t.Key]; ok {
			z[k] = e.z[i]
		} else {
			lacking = append(lacking, k)
		}
	}
	if len(lacking) == 0 {
		return z
	}
	all := m.streams()
	for _, k := range lacking {
		seeds = append(seeds, hashed(all[k], further))
	}
	for i, row := range e.Draws.hypercube(seeds) {
		z[lacking[i]] = row
	}
	return z
}

// Fresh draws n unit normals of their own for something that is no term.
func (e *Ensemble) Fresh(of string, n int) [][]float64 {
	h := fnv.New64a()
	h.Write([]byte(of))
	seeds := make([]uint64, n)
	for i := range seeds {
		seeds[i] = hashed(h.Sum64(), uint64(i), further)
	}
	return e.Draws.hypercube(seeds)
}

// After is the ensemble with z in place of its draws of the model's terms: what is known after
// readings. z is kept.
func (e *Ensemble) After(m *Model, z [][]float64) *Ensemble {
	out := &Ensemble{Draws: e.Draws, Moved: true, at: map[string]int{}, z: z}
	for k, t := range m.Terms {
		out.at[t.Key] = k
	}
	return out
}

// Thin is every nth draw of the ensemble, for what has to be quick.
func (e *Ensemble) Thin(n int) *Ensemble {
	out := *e
	out.z = make([][]float64, len(e.z))
	out.Draws.N = (e.Draws.N + n - 1) / n
	for k, row := range e.z {
		out.z[k] = make([]float64, 0, out.Draws.N)
		for d := 0; d < len(row); d += n {
			out.z[k] = append(out.z[k], row[d])
		}
	}
	return &out
}

// Means are those of the draws of the model's terms; without readings 0.
func (e *Ensemble) Means(m *Model) []float64 {
	mean := make([]float64, len(m.Terms))
	if e.Moved {
		z := e.Terms(m)
		cores.Each(len(z), func(k int) { mean[k] = stat.Mean(z[k], nil) })
	}
	return mean
}

// Belief is the mean and covariance of the draws of the model's terms; without readings exactly those
// of unit normals.
func (e *Ensemble) Belief(m *Model) Belief {
	b := Belief{Mean: e.Means(m)}
	if !e.Moved || len(m.Terms) == 0 {
		return b
	}
	z := e.Terms(m)
	x := mat.NewDense(len(z), e.Draws.N, nil)
	for k := range z {
		copy(x.RawRowView(k), z[k])
		floats.AddConst(-b.Mean[k], x.RawRowView(k))
	}
	b.Cov = mat.NewSymDense(len(z), nil)
	b.Cov.SymOuterK(1/float64(e.Draws.N-1), x)
	return b
}
