package scene

import (
	"fmt"
	"math"
	"sync"

	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Tryout hears one place while the lines of a layout are changed by the thousand. The ways from outlets and walls of
// lines to the ear are asked for once, and all that the lines do not touch is held as in the layout itself. Walls that
// stand in a box are held too, as are findings beyond the line's own. Safe for use by several goroutines; the same lines
// give the same figures on any number of them.
type Tryout struct {
	boat    *path.Boat
	form    path.Form
	engines []tried
	others  float64 // m, length of the lines that are not changed

	// Rest is what the lines do not change at the ear, dB(A).
	Rest float64

	sync.Mutex
	scene *scene
	ear   *listening
	gains map[trailKey]spectrum.Bands
}

// tried is an engine whose line is changed.
type tried struct {
	engine *path.Engine
	result path.ExhaustResult // the engine without a line
}

// Tryout makes one of the lines of some engines of a layout, at a listener. The ways behind them are those of the full form; form
// is that of the lines.
func (n *Session) Tryout(l *path.Layout, engines []string, ear path.Listener, form path.Form) (*Tryout, error) {
	made, err := n.take(n.keyOf(l), l)
	if err != nil {
		return nil, err
	}
	t := &Tryout{boat: n.boat, form: form, scene: made.stage(l, path.Routes), gains: map[trailKey]spectrum.Bands{}}
	p, err := t.scene.predict(n)
	if err != nil {
		return nil, err
	}
	t.ear = t.scene.ear(ear)
	changed := map[string]*path.Engine{}
	for _, name := range engines {
		e, ok := l.Engine(name)
		if !ok || e.Stopped {
			continue
		}
		x := tried{engine: e}
		if x.result, err = n.source(e, path.Routes); err != nil {
			return nil, err
		}
		t.engines, changed[name] = append(t.engines, x), e
	}
	if len(t.engines) == 0 {
		return nil, fmt.Errorf("layout %s: no engine runs whose line is left open\nhint: name one that runs", l.Name)
	}
	t.hold(&p, changed)
	return t, nil
}

// hold keeps what the lines of the changed engines do not touch.
func (t *Tryout) hold(p *path.Prediction, changed map[string]*path.Engine) {
	var rest []emitter
	for _, em := range emitters(t.scene, p.Exhausts) {
		if e := changed[em.engine]; e == nil || em.way != path.ByOutlet && (em.way != path.ByLineWall || e.Enclosure != "") {
			rest = append(rest, em)
		}
	}
	t.Rest = t.scene.hear(rest, t.ear.Listener).DBA()
	for i := range p.Exhausts {
		if r := &p.Exhausts[i]; changed[r.Engine] == nil {
			t.others += r.RatedSource.Pipes.All(r.Rated.Length)
		}
	}
}

// options are those of the form; in the fast one tubes with holes are taken at some frequencies and rational functions
// between: nothing is drawn here, so that a hair does no harm.
func (t *Tryout) options() silencer.Options {
	o := t.form.Options()
	o.Rational = o.Rational || t.form.Fast()
	return o
}

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
func (x *Trial) Findings(factor map[string]float64) (all []silencer.Finding, err error) {
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
		all = append(all, silencer.Findings(&out.Line, path.Circumstances(x.of.boat, &p, &measured))...)
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
		s, err := x.courses[i].Solve()
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
	walls := t.walls(e, &out.Line, r, s.Shells(unsilenced))
	level := make([]float64, len(ratios))
	for k, ratio := range ratios {
		orders, lines := make([]source.Order, len(r.Source.Orders)), make([]silencer.SourceLine, len(r.Source.Orders))
		for i, o := range r.Source.Orders {
			lines[i] = silencer.SourceLine{Frequency: o.Frequency * ratio, Level: o.Level, Order: o.Order}
			orders[i] = o
		}
		losses := s.LineLosses(lines)
		for i := range losses {
			losses[i] = path.Flanked(losses[i])
		}
		level[k] = walls
		if n := tones.New(orders, losses, broad, plain); n != nil {
			bands, weight := n.Heard(gain)
			level[k] = spectrum.Sum(level[k], bands.Plus(weight).Total())
		} else {
			level[k] = spectrum.Sum(level[k], plain.Plus(gain).DBA())
		}
	}
	return level
}

// fromOutlet is the gain from the sound power of one pipe's outlet to the ear, dB by octave.
func (t *Tryout) fromOutlet(e *path.Engine, line *silencer.Line, r *path.ExhaustResult) spectrum.Bands {
	em := newEmitter(e.Name+" exhaust", "outlet", path.Outside, path.Point(line.Outlet.At), path.Step{Bands: r.Source.Exhaust.Bands})
	em.engine, em.way, em.outlet, em.facing, em.bore = e.Name, path.ByOutlet, true, line.Outlet.Pointing, line.Outlet.Bore
	if em.bore == 0 {
		em.bore = r.Running.OutletBore
	}
	gain := t.gain(&em)
	x := path.Exhaust{Engine: e.Name, Line: *line}
	for _, s := range append(otherPipes(*r), underwater(&x, *r)...) {
		gain = gain.Plus(s.Bands)
	}
	return gain
}

// walls is what the walls of a line bring to the ear, dB(A); those in a box are held with the rest.
func (t *Tryout) walls(e *path.Engine, line *silencer.Line, r *path.ExhaustResult, shells []silencer.Shell) float64 {
	sum, from := spectrum.Silent, t.scene.engineSite(e)
	if e.Enclosure != "" {
		return sum
	}
	inside := tones.New(r.Source.Orders, nil, r.Source.Broadband, r.Source.Exhaust.Bands)
	for _, sh := range shells {
		place := sh.In
		if place == "" {
			place = e.In
		}
		if _, ok := t.scene.layout.Space(place); !ok {
			place = path.Outside
		}
		em := newEmitter(e.Name+" exhaust", "wall", place, between(from.At, path.Point(line.Outlet.At), 0, 1), path.Step{Bands: r.Source.Exhaust.Bands})
		em.engine, em.way, em.Spread = e.Name, path.ByLineWall, from.Spread
		gain := sh.Bands.Minus(r.Source.Exhaust.Bands).Plus(t.gain(&em))
		for _, s := range otherPipes(*r) {
			gain = gain.Plus(s.Bands)
		}
		level := r.Source.Exhaust.Bands.Plus(gain).DBA()
		if inside != nil {
			bands, weight := inside.Heard(gain)
			level = bands.Plus(weight).Total()
		}
		sum = spectrum.Sum(sum, level)
	}
	return sum
}

// gain is what all ways from an emitter to the ear take together, dB by octave.
func (t *Tryout) gain(e *emitter) (gain spectrum.Bands) {
	t.Lock()
	defer t.Unlock()
	k := t.scene.key(e, t.scene.form)
	if g, ok := t.gains[k]; ok {
		return g
	}
	var all []spectrum.Bands
	for _, way := range t.scene.trails(e, t.ear) {
		all = append(all, way.gain)
	}
	gain = spectrum.Fill(spectrum.Silent)
	if len(all) > 0 {
		gain = spectrum.SumBands(all...)
	}
	t.gains[k] = gain
	return gain
}
