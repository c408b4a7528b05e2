package scene

import (
	"hushwake/path"
	"hushwake/source/spectrum"
)

// ways are what a scene has found so far.
type ways struct {
	ears    map[earKey]*listening
	trails  map[trailKey]*tails
	entries map[trailKey][]entry // into rooms, for any ear
	given   map[trailKey]*emission
}

// earKey is a place to hear at.
type earKey struct {
	in string
	at path.Point
}

// trailKey is all of an emitter that its ways to an ear depend on but for its level.
type trailKey struct {
	ear                        earKey
	base                       string // the layout, where the doubt of its outlet hangs on it
	source, engine, how, place string
	path.Site
	outlet bool
	bore   float64
	facing [3]float64
	fast   bool
}

// tails are the ways of an emitter to an ear, those of its level and of quieter ones; all in one room have them in common to
// an ear elsewhere.
type tails struct {
	start spectrum.Bands // of the emitter they were looked for
	all   []trail
	turns []turn // before each that hangs on it
}

// turn is where a trail was asked whether it ends, by its gain behind the emitter's own steps.
type turn struct {
	gain   spectrum.Bands
	walls  int
	before int // the turn that the trail came by, counted from 1
	ended  bool
}

// slack is by how much louder an emitter is taken when its ways are looked for, dB: they hold for the next as well.
const slack = 6.0

// ear is a listener made ready, once for each place.
func (s *scene) ear(l path.Listener) *listening {
	k := earKey{l.In, l.At}
	if s.known.ears[k] == nil {
		s.known.ears[k] = s.listen(l)
	}
	return s.known.ears[k]
}

// trails are the ways by air from an emitter to a listener, with one for what the power balance of the spaces holds
// beyond them. Those of a louder one are remembered: they are the same but for those that end.
func (s *scene) trails(e *emitter, ear *listening) []*trail {
	own := s.key(e, s.form)
	own.ear = earKey{ear.In, ear.At}
	k := own
	if _, room := s.node[e.place]; room && e.place != ear.In {
		k = trailKey{ear: own.ear, place: e.place, fast: own.fast}
	}
	known := s.known.trails[k]
	var out []*trail
	ok := known != nil
	if ok {
		out, ok = s.left(known, e)
	}
	if !ok {
		louder := *e
		louder.bands = e.bands.Shift(slack)
		for b := range louder.bands {
			if known != nil {
				louder.bands[b] = max(louder.bands[b], known.start[b])
			}
		}
		known = s.find(&louder, ear)
		s.known.trails[k] = known
		out, _ = s.left(known, e)
	}
	if e.given = s.known.given[own]; !e.given.of(e, known) {
		e.given, s.known.given[own] = nil, &emission{bands: e.bands, tones: e.tones, by: known}
	}
	if t, ok := s.beyond(e, ear, out); ok {
		out = append(out, &t)
	}
	return out
}

// left are the trails that do not end at the level of an emitter; not ok where one goes on that had ended.
func (s *scene) left(t *tails, e *emitter) (out []*trail, ok bool) {
	over := make([]bool, len(t.turns)+1)
	for i := range t.turns {
		n := &t.turns[i]
		if over[i+1] = over[n.before]; over[i+1] {
			continue
		}
		if over[i+1] = s.tooFaint(e.bands.Plus(n.gain), n.walls); n.ended && !over[i+1] {
			return nil, false
		}
	}
	out = make([]*trail, 0, len(t.all)+1)
	for i := range t.all {
		if way := &t.all[i]; !over[way.turn] {
			out = append(out, way)
		}
	}
	return out, true
}

// key tells an emitter from others but for its level.
func (s *scene) key(e *emitter, form path.Form) trailKey {
	base := ""
	if e.outlet && s.boat.Unstated(s.outletKey(e)) != 0 {
		base = s.layout.Base
	}
	return trailKey{base: base, source: e.source, engine: e.engine, how: e.how, place: e.place, Site: e.Site, outlet: e.outlet, bore: e.bore, facing: e.facing, fast: form.Fast()}
}
