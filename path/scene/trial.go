package scene

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/silencer"
	"hushwake/silencer/safety"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Trial is a layout in a tryout, its lines marched.
type Trial struct {
	Layout   *path.Layout
	Pressure map[string]float64 // Pa at rated, by engine
	Length   float64            // m, of all lines
	Outer    float64            // m, the largest outside size of a changed line

	of      *Tryout
	results []path.ExhaustResult
	courses []silencer.Course
}

// March marches the lines at rated, which is what most can be told apart by at little cost.
func (t *Tryout) March(l *path.Layout) (*Trial, error) {
	x := &Trial{Layout: l, Pressure: map[string]float64{}, Length: t.others, of: t}
	for _, e := range t.engines {
		out, ok := l.Exhaust(e.engine.Name)
		if !ok {
			return nil, fmt.Errorf("layout %s: engine %s has no exhaust", l.Name, e.engine.Name)
		}
		r := e.result
		_, rated := path.Feeds(t.boat, r)
		var err error
		if r.Rated, err = out.Line.March(rated, t.options()); err != nil {
			return nil, fmt.Errorf("exhaust of %s at rated: %w", e.engine.Name, err)
		}
		x.Pressure[e.engine.Name] = r.Rated.BackPressure
		x.Length += r.RatedSource.Pipes.All(r.Rated.Length)
		for _, row := range r.Rated.Rows {
			x.Outer = math.Max(x.Outer, row.OuterSize)
		}
		x.results = append(x.results, r)
	}
	return x, nil
}

// Findings marches the lines at running and gives what is found against them; factor is what back pressures are of those
// marched, by engine, as readings have it, nil = 1.
func (x *Trial) Findings(factor map[string]float64) (all []safety.Finding, err error) {
	x.courses = x.courses[:0]
	for i := range x.results {
		r := &x.results[i]
		out, _ := x.Layout.Exhaust(r.Engine)
		running, _ := path.Feeds(x.of.boat, *r)
		c, err := out.Line.Course(running, x.of.options())
		if err != nil {
			return nil, fmt.Errorf("exhaust of %s: %w", r.Engine, err)
		}
		r.Running, x.courses = c.March(), append(x.courses, c)
		measured := *r
		if f, ok := factor[r.Engine]; ok {
			measured.Rated.BackPressure *= f
			measured.Running.BackPressure *= f
		}
		p := path.Prediction{Layout: x.Layout}
		all = append(all, safety.Findings(&out.Line, path.Circumstances(x.of.boat, &p, &measured))...)
	}
	return all, nil
}

// Levels are what is heard, dB(A), where the frequencies of the orders lie at some ratios of those at running against
// the speed of sound in the line: 1 is running itself. Engines of constant speed take the second list. Call Findings
// first.
func (x *Trial) Levels(propeller, constant []float64) ([]float64, error) {
	level := make([]float64, len(propeller))
	for k := range level {
		level[k] = x.of.Rest
	}
	for i := range x.results {
		s, err := x.courses[i].SolveMatched()
		if err != nil {
			return nil, fmt.Errorf("exhaust of %s: %w", x.results[i].Engine, err)
		}
		e := x.of.engines[i].engine
		ratios := propeller
		if e.LoadLaw() != source.Propeller {
			ratios = constant
		}
		for k, v := range x.of.heard(x.Layout, e, &x.results[i], s, ratios) {
			level[k] = spectrum.Sum(level[k], v)
		}
	}
	return level, nil
}

// heard is what one line brings to the ear at each ratio, dB(A).
func (t *Tryout) heard(l *path.Layout, e *path.Engine, r *path.ExhaustResult, s *silencer.Solved, ratios []float64) []float64 {
	out, _ := l.Exhaust(e.Name)
	r.Acoustics = s.Acoustics()
	path.Flank(&r.Acoustics)
	unsilenced := r.Source.Exhaust.Bands
	broad := spectrum.SumBands(r.Source.Broadband.Minus(r.Acoustics.BroadbandLoss), r.Acoustics.SelfNoise)
	plain := spectrum.SumBands(unsilenced.Minus(r.Acoustics.InsertionLoss), r.Acoustics.SelfNoise)
	gain := t.fromOutlet(e, &out.Line, r)
	walls := t.walls(e, &out.Line, r, s)
	level, lines := make([]float64, len(ratios)), make([]silencer.SourceLine, len(r.Source.Orders))
	for k, ratio := range ratios {
		for i, o := range r.Source.Orders {
			lines[i] = silencer.SourceLine{Frequency: o.Frequency * ratio, Level: o.Level, Order: o.Order}
		}
		losses := s.LineLosses(lines)
		for i := range losses {
			losses[i] = path.Flanked(losses[i])
		}
		level[k] = walls
		if n := tones.New(r.Source.Orders, losses, broad, plain); n != nil {
			bands, weight := n.Heard(gain)
			level[k] = spectrum.Sum(level[k], bands.Plus(weight).Total())
		} else {
			level[k] = spectrum.Sum(level[k], plain.Plus(gain).DBA())
		}
	}
	return level
}
