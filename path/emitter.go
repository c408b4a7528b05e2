package path

import (
	"math"

	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// emitter is something that gives off sound power in one place.
type emitter struct {
	source string // as named in routes
	engine string // whose sound it is
	way    Way
	how    string // first word of the route: "outlet", "pipe wall", "casing", ...
	place  string // the space it stands in, or Outside
	site          // at, and how well that is known
	steps  []Step
	bands  spectrum.Bands // sum of the steps, dB re 1 pW

	wall *wall // the partition whose outer face it is; nil otherwise

	// outlet only
	outlet bool
	bore   float64
	facing [3]float64
}

// placeKey is what doubts of the emitter's place share.
func (e *emitter) placeKey() string {
	if e.wall != nil {
		return e.wall.label()
	}
	return e.engine
}

func newEmitter(source, how, place string, at Point, steps ...Step) emitter {
	e := emitter{source: source, how: how, place: place, site: site{at: at}, steps: steps}
	for _, s := range steps {
		e.bands = e.bands.Plus(s.Bands)
	}
	return e
}

// partStep turns a part of the engine's sound power into the first step of a chain.
func partStep(name, term, engine string, p source.Part) Step {
	return Step{
		Name: name, Formula: p.Formula, Source: p.Source, Mark: p.Mark, Bands: p.Bands,
		Uncertain: []Uncertain{{
			Term: "source level", Key: term + "/" + engine, SD: spectrum.Fill(p.SD), Source: "judgement: handbook scatter",
		}},
	}
}

// emitters lists everything in the layout that gives off sound.
func emitters(s *scene, results []ExhaustResult) []emitter {
	var all []emitter
	for _, r := range results {
		e, _ := s.layout.Engine(r.Engine)
		x, _ := s.layout.Exhaust(r.Engine)
		all = append(all, outletEmitter(e, x, r))
		all = append(all, shellEmitters(s, e, x, r)...)
		all = append(all, bodyEmitters(s, e, r)...)
	}
	return all
}

// otherPipes adds the pipes of the other banks: the source and the line are those of one pipe.
func otherPipes(r ExhaustResult) []Step {
	n := r.Source.Pipes
	if n < 2 {
		return nil
	}
	return []Step{{
		Name: "all pipes", Formula: "10 lg of the number of pipes, each with a line alike and the outlets together",
		Source: "energy sum of equal sources", Mark: "derived", Bands: spectrum.Fill(10 * math.Log10(float64(n))),
	}}
}

// outletEmitter is the end of the line: source level, loss of the line, floor of flow noise.
func outletEmitter(e *Engine, x *Exhaust, r ExhaustResult) emitter {
	source := partStep("exhaust sound power, unsilenced", "source level", e.Name, r.Source.Exhaust)
	source.Uncertain = append(source.Uncertain, orderPattern(e.Name))
	loss := lineStep(e, x, r)
	after := r.Unsilenced.Minus(r.Acoustics.InsertionLoss)
	floor := Step{
		Name: "flow noise added at the outlet", Formula: r.Acoustics.NoiseFormula,
		Source: r.Acoustics.NoiseSource, Mark: "from memory",
		Bands:     r.OutletPower.Minus(after),
		Uncertain: []Uncertain{flowNoise(e.Name, after, r)},
	}
	steps := []Step{source, loss, floor}
	steps = append(steps, otherPipes(r)...)
	steps = append(steps, underwater(x)...)
	at := Point(x.Line.Outlet.At)
	em := newEmitter(e.Name+" exhaust", "outlet", Outside, at, steps...)
	em.engine, em.way = e.Name, ByOutlet
	em.outlet, em.facing, em.bore = true, x.Line.Outlet.Pointing, x.Line.Outlet.Bore
	if em.bore == 0 {
		em.bore = r.Running.OutletBore
	}
	return em
}

func lineStep(e *Engine, x *Exhaust, r ExhaustResult) Step {
	a := r.Acoustics
	return Step{
		Name: "insertion loss of the line", Formula: a.Formula, Source: a.Source, Mark: a.Mark,
		Bands: spectrum.Bands{}.Minus(a.InsertionLoss),
		Uncertain: append(lineUncertain(e.Name, x, a),
			Uncertain{Term: "source impedance", Key: "source impedance/" + e.Name, SD: a.ImpedanceSD,
				Source: "spread between three source impedances"}),
	}
}

// underwater credits an outlet below the surface with no more than practice shows.
func underwater(x *Exhaust) []Step {
	if x.Line.Outlet.BelowWater <= 0 {
		return nil
	}
	return []Step{{
		Name:    "outlet under water",
		Formula: "10 dB in every band, at most 10 dB(A) without a measurement",
		Source:  "judgement; the plane gas-water step would give 29.7 dB, bubbles set a floor",
		Mark:    "judgement", Bands: spectrum.Fill(-10),
		Uncertain: []Uncertain{{Term: "element model", Key: "outlet under water", SD: spectrum.Fill(5), Source: "judgement"}},
	}}
}

// shellEmitters are the walls of the line in the spaces they stand in.
func shellEmitters(s *scene, e *Engine, x *Exhaust, r ExhaustResult) []emitter {
	running, _ := feeds(s.boat, r)
	shells := x.Line.Shells(running, s.form.options(), r.Unsilenced)
	out, from := make([]emitter, 0, len(shells)), s.engineSite(e)
	for i, sh := range shells {
		place := sh.In
		if place == "" {
			place = e.In
		}
		if _, ok := s.layout.space(place); !ok {
			place = Outside
		}
		step := partStep("sound power inside the pipe", "source level", e.Name, r.Source.Exhaust)
		wall := Step{Name: "through the wall of " + sh.Element, Formula: sh.Formula, Source: sh.Source, Mark: sh.Mark,
			Bands: sh.Bands.Minus(r.Unsilenced),
			Uncertain: []Uncertain{{Term: "element model", Key: "shell/" + sh.Element, SD: spectrum.Fill(5),
				Source: "judgement: breakout of small walls"}}}
		em := newEmitter(e.Name+" exhaust", "wall of "+sh.Element, place, between(from.at, Point(x.Line.Outlet.At), i, len(shells)), step, wall)
		em.engine, em.way, em.spread = e.Name, ByLineWall, from.spread
		out = append(out, em)
	}
	return out
}

// between places part i of n evenly on the way from a to b.
func between(a, b Point, i, n int) (p Point) {
	t := (float64(i) + 0.5) / float64(max(n, 1))
	for k := range p {
		p[k] = a[k] + t*(b[k]-a[k])
	}
	return p
}

// bodyEmitters are casing, intake and alternator, behind the engine's enclosure if it has one.
func bodyEmitters(s *scene, e *Engine, r ExhaustResult) []emitter {
	place := e.In
	if _, ok := s.layout.space(place); !ok {
		place = Outside
	}
	box := s.enclosureStep(&r)
	parts := []struct {
		how, term string
		part      *source.Part
		boxed     bool
	}{
		{"casing", "casing level", &r.Source.Casing, true},
		{"intake", "intake level", r.Source.Intake, true},
		{"alternator", "alternator level", r.Source.Alternator, true},
	}
	var out []emitter
	for _, p := range parts {
		if p.part == nil {
			continue
		}
		steps := []Step{partStep(p.how+" sound power", p.term, e.Name, *p.part)}
		if box != nil && p.boxed {
			steps = append(steps, *box)
		}
		em := newEmitter(e.Name+" "+p.how, p.how, place, e.At, steps...)
		em.engine, em.way, em.site = e.Name, ByAir, s.engineSite(e)
		out = append(out, em)
	}
	return out
}

// silencing tells whether an element is there to cut sound.
func silencing(e silencer.Element) bool {
	switch e.(type) {
	case *silencer.Pipe, *silencer.Bellows, *silencer.Elbow, *silencer.Hose,
		*silencer.WaterInjection, *silencer.AntiSiphon, *silencer.Riser:
		return false
	}
	return true
}
