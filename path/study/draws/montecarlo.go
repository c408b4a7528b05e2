package draws

import (
	"math"

	"hushwake/source/spectrum"
	"hushwake/source/vector"
)

// DefaultDraws is the number of draws when none is asked for; DefaultSeed likewise.
const (
	DefaultNumber = 10000
	DefaultSeed   = 1
	mostDraws     = 1000000
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
	plan            *plan // nil where something was left out
}

// Run works the model out in every draw.
func (m *Model) Run(e *Ensemble) Sample {
	s := Sample{of: e}
	s.Levels, s.Factors, s.plan = m.run(e.Terms(m), e.Draws.N)
	return s
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

// Question is a level that is asked for: at a place, with a weighting.
type Question struct {
	At     *Listener
	Weight spectrum.Bands
}

// Levels writes the level at the place with weighting w in every draw, dB; z holds the draws of the
// terms that the routes know, by their number.
func (h *Listener) Levels(z [][]float64, w spectrum.Bands, out []float64) {
	Ask([]Question{{h, w}}, len(z)).Levels(z, [][]float64{out})
}

// Asked is several levels that are asked for in other and other draws; what their routes have in common is added up once.
type Asked struct {
	questions []Question
	terms     int
	mixes     []sum
	sorted    []bundle
}

// Ask asks for levels in draws of so many terms.
func Ask(questions []Question, terms int) *Asked {
	p := newPlan(make([][]float64, terms), 0)
	a := &Asked{questions: questions, terms: terms, sorted: p.sorted(questions)}
	a.mixes = p.mixes
	return a
}

// Levels writes them in every draw, dB. Not safe for use by several goroutines.
func (a *Asked) Levels(z, out [][]float64) {
	if len(out) > 0 {
		z = z[:a.terms]
		p := newPlan(z, len(out[0]))
		p.mixes = a.mixes
		p.enter(a.questions, a.sorted, 0)
		p.run(z, out)
	}
}

// run gives every level and back-pressure factor for every draw: [layout][listener or exhaust][draw]; and by which plan where
// nothing was left out.
func (m *Model) run(z [][]float64, n int) (levels, factors [][][]float64, whole *plan) {
	p, all := newPlan(z, n), [][]float64(nil)
	for _, l := range m.Layouts {
		var asked []Question
		for _, h := range l.Listeners {
			asked = append(asked, Question{h, spectrum.A})
		}
		p.enter(asked, p.sorted(asked), len(all))
		levels, factors = append(levels, rows(len(l.Listeners), n)), append(factors, rows(len(l.Exhausts), n))
		all = append(all, levels[len(levels)-1]...)
	}
	p.run(z, all)
	for i, l := range m.Layouts {
		for j, x := range l.Exhausts {
			drawFactors(x, z, factors[i][j])
		}
	}
	if p.most == nil {
		whole = p
	}
	return levels, factors, whole
}

func rows(n, width int) [][]float64 {
	r := make([][]float64, n)
	for i := range r {
		r[i] = make([]float64, width)
	}
	return r
}

func drawFactors(p *Exhaust, z [][]float64, out []float64) {
	vector.AddInOrder(out, z, p.Keys, p.SD)
	for d, v := range out {
		out[d] = math.Exp(v)
	}
}
