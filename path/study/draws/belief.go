package draws

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"

	"hushwake/source/spectrum"
)

// After is the belief once a reading with gradient g and error sd is known: C - C g g'C/(g'Cg + sd^2).
func (b Belief) After(g []float64, sd float64) Belief {
	n := len(g)
	if n == 0 { // nothing runs: there is nothing to learn
		return b
	}
	cg := make([]float64, n)
	for k := range cg {
		cg[k] = b.Row(k, g)
	}
	den := b.Variance(g) + sd*sd
	out := Belief{Mean: b.Mean, Cov: mat.NewSymDense(n, nil)}
	for i := range n {
		for j := i; j < n; j++ {
			out.Cov.SetSym(i, j, b.cov(i, j)-cg[i]*cg[j]/den)
		}
	}
	return out
}

// Z90 is the 90th percentile of the unit normal.
const Z90 = 1.2815515655446004

// Belief is what is known of the terms: a normal distribution over their unit variables.
type Belief struct {
	Mean []float64
	Cov  *mat.SymDense // nil = the unit matrix
}

// Variance is g' C g.
func (b Belief) Variance(g []float64) float64 {
	if b.Cov == nil {
		s := 0.0
		for _, v := range g {
			s += v * v
		}
		return s
	}
	n := min(b.Cov.SymmetricDim(), len(g))
	s := 0.0
	for i := 0; i < n; i++ {
		if g[i] == 0 {
			continue
		}
		for j := 0; j < n; j++ {
			s += g[i] * b.Cov.At(i, j) * g[j]
		}
	}
	for i := n; i < len(g); i++ { // terms the belief does not know are still unit normals
		s += g[i] * g[i]
	}
	return math.Max(s, 0)
}

// Share is what one term adds to the spread of a level.
type Share struct {
	Term
	SD    float64 // dB the level moves for one deviation of the term alone
	Share float64 // of the variance, 0..1; shares of all terms add to 1
}

// Matters lists the terms by what they add to the spread of a level, the largest first.
func (m *Model) Matters(b Belief, layout, listener string) []Share {
	l, h := m.Find(layout, listener)
	if h < 0 {
		return nil
	}
	return m.shares(b, m.Layouts[l].Listeners[h].Gradient(b.Mean, spectrum.A, len(m.Terms)))
}

// MattersIn is Matters after the readings that an ensemble holds.
func (m *Model) MattersIn(e *Ensemble, layout, listener string) []Share {
	l, h := m.Find(layout, listener)
	if h < 0 {
		return nil
	}
	mean := e.Means(m)
	g := m.Layouts[l].Listeners[h].Gradient(mean, spectrum.A, len(m.Terms))
	if !e.Moved || len(m.Terms) == 0 {
		return m.shares(Belief{Mean: mean}, g)
	}
	return m.shares(&drawn{mean: mean, z: e.Terms(m)}, g)
}

// drawn is the covariance C of drawn terms, of which only products with a gradient are asked for.
type drawn struct {
	mean []float64
	z    [][]float64 // by term and draw
	of   []float64   // the gradient that sum is along
	sum  []float64   // by draw, about its mean
}

// along takes the draws along a gradient.
func (c *drawn) along(g []float64) []float64 {
	if c.sum != nil && &c.of[0] == &g[0] {
		return c.sum
	}
	c.of, c.sum = g, make([]float64, len(c.z[0]))
	for k, v := range g {
		if v != 0 {
			floats.AddScaled(c.sum, v, c.z[k])
			floats.AddConst(-v*c.mean[k], c.sum)
		}
	}
	return c.sum
}

// Variance is g' C g.
func (c *drawn) Variance(g []float64) float64 {
	s := c.along(g)
	return floats.Dot(s, s) / float64(len(s)-1)
}

// Row is (C g)_k; the sum has no mean, so that the term's own drops out.
func (c *drawn) Row(k int, g []float64) float64 {
	s := c.along(g)
	return floats.Dot(c.z[k], s) / float64(len(s)-1)
}

// covariance is that of the terms along gradients.
type covariance interface {
	Variance(g []float64) float64
	Row(k int, g []float64) float64
}

// shares are those of the terms in the variance of a level with gradient g.
func (m *Model) shares(b covariance, g []float64) []Share {
	total, row := b.Variance(g), make([]float64, len(g))
	for k := range g {
		if g[k] != 0 {
			row[k] = b.Row(k, g)
		}
	}
	var all []Share
	for _, c := range m.causes() {
		s, own := Share{Term: m.Terms[c[0]]}, make([]float64, len(g))
		moves := false
		for _, k := range c {
			if own[k] = g[k]; total > 0 && g[k] != 0 {
				s.Share, moves = s.Share+g[k]*row[k]/total, true
			}
		}
		if !moves {
			continue
		}
		if s.SD = math.Sqrt(b.Variance(own)); s.SD == 0 {
			continue
		}
		if s.Whole != "" {
			s.Key = s.Whole
		}
		all = append(all, s)
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].Share > all[j].Share })
	return all
}

// causes groups the terms into causes: parts of one cause together.
func (m *Model) causes() (all [][]int) {
	at := map[string]int{}
	for k, t := range m.Terms {
		if i, ok := at[t.Whole]; ok && t.Whole != "" {
			all[i] = append(all[i], k)
			continue
		}
		at[t.Whole] = len(all)
		all = append(all, []int{k})
	}
	return all
}

func (b Belief) cov(i, j int) float64 {
	switch {
	case b.Cov != nil && i < b.Cov.SymmetricDim() && j < b.Cov.SymmetricDim():
		return b.Cov.At(i, j)
	case i == j:
		return 1
	}
	return 0
}

// Row is (C g)_k.
func (b Belief) Row(k int, g []float64) float64 {
	s := 0.0
	for j, v := range g {
		if v != 0 {
			s += b.cov(k, j) * v
		}
	}
	return s
}
