package scene

import (
	"fmt"
	"sync"

	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/silencer"
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
func (t *Tryout) walls(e *path.Engine, line *silencer.Line, r *path.ExhaustResult, s *silencer.Solved) float64 {
	sum, from := spectrum.Silent, t.scene.engineSite(e)
	if e.Enclosure != "" {
		return sum
	}
	inside := tones.New(r.Source.Orders, nil, r.Source.Broadband, r.Source.Exhaust.Bands)
	for _, sh := range s.Shells(r.Source.Exhaust.Bands) {
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
		for _, pipes := range otherPipes(*r) {
			gain = gain.Plus(pipes.Bands)
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
