package scene

import (
	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// emitter is something that gives off sound power in one place.
type emitter struct {
	source    string // as named in routes
	engine    string // exact name
	way       path.Way
	how       string // first word of the route: "outlet", "pipe wall", "casing", ...
	place     string // the space it stands in, or Outside
	path.Site        // at, and how well that is known
	steps     []path.Step
	bands     spectrum.Bands // sum of the steps, dB re 1 pW

	wall  *wall      // the partition whose outer face it is; nil otherwise
	tones *tones.Set // nil where no orders are known
	given *emission  // what it gives to the ways last asked for; nil = not the same as the time before
	entry []entry    // ways into rooms for an emitter in the open, once asked for

	// outlet only
	outlet bool
	bore   float64
	facing [3]float64
}

// emission is what an emitter gave off when its ways to an ear were asked for.
type emission struct {
	bands   spectrum.Bands
	tones   *tones.Set
	by      *tails
	brought [][2]spectrum.Bands // by its ways, energies of the octaves, unweighted and A-weighted, as far as known
}

// of tells whether an emitter gives the same to the same ways.
func (m *emission) of(e *emitter, by *tails) bool {
	return m != nil && m.by == by && m.bands == e.bands && m.tones.Equal(e.tones)
}

// placeKey is what doubts of the emitter's place share.
func (e *emitter) placeKey() string {
	if e.wall != nil {
		return e.wall.Label()
	}
	return e.engine
}

func newEmitter(source, how, place string, at path.Point, steps ...path.Step) emitter {
	e := emitter{source: source, how: how, place: place, Site: path.Site{At: at}, steps: steps}
	for _, s := range steps {
		e.bands = e.bands.Plus(s.Bands)
	}
	return e
}

// partStep turns a part of an engine's sound power into the first step of a chain. A duty that was filled in is a doubt of all parts
// alike, but of a level that was measured at it.
func partStep(name, term string, e *path.Engine, p source.Part, measured bool) path.Step {
	st := path.Step{
		Name: name, Cited: p.Cited, Bands: p.Bands, Terms: p.Terms,
		Uncertain: []path.Uncertain{{
			Term: "source level", Key: term + "/" + e.Name, SD: p.SD, Source: "judgement: handbook scatter",
		}},
	}
	if _, a := e.RunningDuty(); a != nil && a.PlusMinusDB > 0 && !measured {
		st.Uncertain = append(st.Uncertain, path.Uncertain{Term: "duty", Key: "duty/" + e.Name, SD: spectrum.Fill(a.PlusMinusDB), Source: "not stated in the file: " + a.Source})
	}
	return st
}

// emitters lists everything in the layout that gives off sound.
func emitters(s *scene, results []path.ExhaustResult) []emitter {
	var all []emitter
	for _, r := range results {
		e, _ := s.layout.Engine(r.Engine)
		x, _ := s.layout.Exhaust(r.Engine)
		all = append(all, outletEmitter(e, x, r))
		all = append(all, shellEmitters(s, e, x, r)...)
		all = append(all, bodyEmitters(s, e, r)...)
		if r.Box != nil {
			all = append(all, s.fanEmitters(&r)...)
		}
	}
	synchronise(all, results)
	return all
}

// bodyEmitters are casing, intake and alternator, behind the engine's enclosure if it has one.
func bodyEmitters(s *scene, e *path.Engine, r path.ExhaustResult) []emitter {
	parts := []struct {
		how, term string
		part      *source.Part
	}{
		{"casing", "casing level", &r.Source.Casing},
		{"intake", "intake level", r.Source.Intake},
		{"alternator", "alternator level", r.Source.Alternator},
	}
	var out []emitter
	for _, p := range parts {
		if p.part == nil || p.how == "intake" && r.PipedIn() {
			continue
		}
		em := newEmitter(bodyOf(e.Name, p.how), p.how, s.placeOf(e), e.At, partStep(p.how+" sound power", p.term, e, *p.part, p.how == "casing" && e.CasingLevel != nil))
		em.engine, em.way, em.Site = e.Name, path.ByAir, s.engineSite(e)
		if r.Box != nil {
			out = append(out, s.boxedEmitters(em, r.Box)...)
			continue
		}
		out = append(out, em)
	}
	if r.PipedIn() || r.Box != nil && r.Box.Enclosure.AirUnknown {
		out = append(out, s.intakeEmitter(e, &r))
	}
	return out
}

// bodyOf names a part of an engine's body as a source; casingOf its casing.
func bodyOf(engine, part string) string { return engine + " " + part }

func casingOf(engine string) string { return bodyOf(engine, "casing") }
