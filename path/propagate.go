package path

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"hushwake/source/spectrum"
)

// maxWalls is how many partitions a route may pass. Beyond freeWalls only trails that still hold
// faintest are followed; what is left off adds less than a tenth of a dB to anything that is heard.
const (
	maxWalls  = 6
	freeWalls = 3
	faintest  = 10.0 // dB(A) of sound power
)

// fastFaintest ends a trail in the fast form behind its first wall already, dB(A) of sound power.
const fastFaintest = 30.0

// ends tells whether a trail is not worth following through another wall.
func (s *scene) ends(t trail, walls int) bool {
	if s.form == Fast {
		return walls >= freeWalls || walls >= 1 && t.gain.DBA() < fastFaintest
	}
	return walls >= maxWalls || walls >= freeWalls && t.gain.DBA() < faintest
}

// keepBelow is how far below the loudest a route is still listed, dB(A); the rest is summed up.
const keepBelow = 30.0

// trail is a route in the making: where it has got to, by which steps.
type trail struct {
	steps []Step
	gain  spectrum.Bands
	words []string
	seen  []string // spaces already passed
}

func (t trail) with(word string, steps ...Step) trail {
	n := trail{
		steps: append(t.steps[:len(t.steps):len(t.steps)], steps...), gain: t.gain,
		words: t.words, seen: t.seen,
	}
	for _, s := range steps {
		n.gain = n.gain.Plus(s.Bands)
	}
	if word != "" {
		n.words = append(t.words[:len(t.words):len(t.words)], word)
	}
	return n
}

func (t trail) entered(space string) trail {
	t.seen = append(t.seen[:len(t.seen):len(t.seen)], space)
	return t
}

func (t trail) passed(space string) bool {
	for _, s := range t.seen {
		if s == space {
			return true
		}
	}
	return false
}

// route closes a trail at a listener.
func (t trail) route(e *emitter) Route {
	return Route{Engine: e.engine, Way: e.way, Source: e.source, Route: strings.Join(t.words, " > "), Bands: t.gain, Steps: t.steps}
}

// hear finds every route from the emitters to a listener.
func (s *scene) hear(all []emitter, ear Listener) Heard {
	h := Heard{Listener: ear}
	for i := range all {
		e := &all[i]
		start := trail{}.with(e.how, e.steps...).entered(e.place)
		if e.place == Outside {
			h.Routes = append(h.Routes, s.fromOutside(start, e, ear)...)
		} else {
			h.Routes = append(h.Routes, s.fromRoom(start, e, ear)...)
		}
	}
	h.Routes = tidy(h.Routes)
	bands := make([]spectrum.Bands, len(h.Routes))
	for i, r := range h.Routes {
		bands[i] = r.Bands
	}
	h.Bands = spectrum.SumBands(bands...)
	h.Notes = s.notes(ear)
	return h
}

// notes say what the figure at a listener does not hold.
func (s *scene) notes(ear Listener) []string {
	r, inside := s.rooms[ear.In]
	if !inside {
		return nil
	}
	return []string{
		fmt.Sprintf("Below the Schroeder frequency of %s, %.0f Hz, single modes rule: the level there differs by ±5 dB from seat to seat.", ear.In, r.Schroeder()),
		fmt.Sprintf("By air, with one cap: mounts and hull are taken to bring in a casing's sound power less %.0f dB or more, whatever bulkheads and boxes do. A firing tone felt underfoot is structural and may be louder.", structureDrop),
	}
}

// tidy sorts routes, loudest first, and sums up those too quiet to matter by source.
func tidy(routes []Route) []Route {
	if len(routes) == 0 {
		return routes
	}
	order, level := make([]int, len(routes)), make([]float64, len(routes))
	for i, r := range routes {
		order[i], level[i] = i, r.DBA()
	}
	sort.SliceStable(order, func(i, j int) bool { return level[order[i]] > level[order[j]] })
	sorted := make([]Route, len(routes))
	for at, i := range order {
		sorted[at] = routes[i]
	}
	limit := level[order[0]] - keepBelow
	for at, i := range order {
		if level[i] < limit || at >= 30 {
			return append(sorted[:at:at], minor(sorted[at:]))
		}
	}
	return sorted
}

// minor sums up quiet routes into one.
func minor(routes []Route) Route {
	bands := make([]spectrum.Bands, len(routes))
	for i, r := range routes {
		bands[i] = r.Bands
	}
	sum := spectrum.SumBands(bands...)
	return Route{
		Source: "all others", Route: "quiet routes together", Bands: sum,
		Steps: []Step{{Name: "sum of the quiet routes", Formula: "energy sum", Source: "definition of the level",
			Mark: "derived", Bands: sum}},
	}
}

// fromOutside leads from an emitter in the open to a listener.
func (s *scene) fromOutside(t trail, e *emitter, ear Listener) []Route {
	if ear.In == Outside {
		return []Route{t.with("open air", s.outdoors(ends{e: e, to: ear.At})...).route(e)}
	}
	var out []Route
	for i := range s.walls {
		w := &s.walls[i]
		inner, ok := w.other(Outside)
		if !ok || t.passed(inner) {
			continue
		}
		out = append(out, s.inside(t.with(w.label(), s.intoWall(e, w)...), inner, w, e, ear, 1)...)
	}
	return out
}

// fromRoom leads from an emitter in a room to a listener.
func (s *scene) fromRoom(t trail, e *emitter, ear Listener) []Route {
	if ear.In == e.place {
		d := s.distanceIn(e.place, e.at, s.stated(e), ear.At)
		return []Route{t.with("same space", s.roomSteps(e.place, d)...).route(e)}
	}
	routes := s.through(t, e.place, e, ear, 0)
	if r, ok := s.structure(t, e, ear); ok {
		routes = append(routes, r)
	}
	return routes
}

// through leads from a room that holds sound power through each of its walls.
func (s *scene) through(t trail, place string, e *emitter, ear Listener, walls int) []Route {
	if s.ends(t, walls) {
		return nil
	}
	var out []Route
	for i := range s.walls {
		w := &s.walls[i]
		far, ok := w.other(place)
		if !ok || t.passed(far) {
			continue
		}
		next := t.with(w.label(), s.acrossWall(place, w)...)
		if far == Outside {
			out = append(out, s.outOfWall(next.entered(Outside), w, e, ear, walls+1)...)
			continue
		}
		out = append(out, s.inside(next, far, w, e, ear, walls+1)...)
	}
	return out
}

// inside is a trail that brings sound power into a room through wall w.
func (s *scene) inside(t trail, place string, w *wall, e *emitter, ear Listener, walls int) []Route {
	if _, ok := s.rooms[place]; !ok {
		return nil
	}
	t = t.entered(place)
	if ear.In == place {
		d := s.distanceIn(place, w.at, w.known, ear.At)
		return []Route{t.with("", s.entrySteps(place, w, d)...).route(e)}
	}
	return s.through(t, place, e, ear, walls)
}

// outOfWall leads from the outer face of a wall to a listener outside or into another space.
func (s *scene) outOfWall(t trail, w *wall, e *emitter, ear Listener, walls int) []Route {
	if ear.In == Outside {
		face := w.face(e, ear.At, s)
		steps := w.spread(face.at, ear.At, s, func(at Point) []Step {
			piece := *face
			piece.at = at
			return s.outdoors(ends{e: &piece, to: ear.At, area: w.Area / pieces})
		})
		return []Route{t.with("open air", steps...).route(e)}
	}
	if s.ends(t, walls) {
		return nil
	}
	var out []Route
	for i := range s.walls {
		v := &s.walls[i]
		inner, ok := v.other(Outside)
		if !ok || t.passed(inner) || v == w {
			continue
		}
		out = append(out, s.inside(t.with(v.label(), s.intoWall(w.face(e, v.site(w.at, s).at, s), v)...), inner, v, e, ear, walls+1)...)
	}
	return out
}

// face is the outer side of a wall as it gives off an emitter's sound towards a point.
func (w *wall) face(e *emitter, to Point, s *scene) *emitter {
	return &emitter{source: e.source, engine: e.engine, way: e.way, place: Outside, site: w.site(to, s), wall: w}
}

// distanceIn is the way from a to a listener in a room; half the room's diagonal where a is not known.
func (s *scene) distanceIn(place string, a Point, known bool, ear Point) float64 {
	sp, _ := s.layout.space(place)
	half := math.Sqrt(sq(sp.Size[0])+sq(sp.Size[1])+sq(sp.Size[2])) / 2
	if !known {
		return math.Max(half, 0.5)
	}
	return math.Min(distance(a, ear, 0.5), 2*half)
}
