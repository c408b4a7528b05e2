package path

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"hushwake/source"
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

// tooFaint tells whether a level behind that many walls is not worth following.
func (s *scene) tooFaint(level spectrum.Bands, walls int) bool {
	if s.form.fast() {
		return walls >= freeWalls || s.levelCounts(walls) && level.DBA() < fastFaintest
	}
	return walls >= maxWalls || s.levelCounts(walls) && level.DBA() < faintest
}

// levelCounts tells whether the level decides at that many walls.
func (s *scene) levelCounts(walls int) bool {
	if s.form.fast() {
		return walls >= 1 && walls < freeWalls
	}
	return walls >= freeWalls && walls < maxWalls
}

// keepBelow is how far below the loudest a route is still listed, dB(A); the rest is summed up.
const keepBelow = 30.0

// hear finds every route from the emitters to a listener.
func (s *scene) hear(all []emitter, ear Listener) Heard {
	h, at, ways := Heard{Listener: ear}, s.ear(ear), make([][]trail, len(all))
	for i := range all {
		ways[i] = s.trails(&all[i], at)
	}
	rest := newFar(ways, s.form.below())
	for i := range all {
		e := &all[i]
		for k := range ways[i] {
			if t := &ways[i][k]; !rest.takes(e, t) {
				h.Routes = append(h.Routes, t.of(e).closed(e))
			}
		}
		if r, ok := s.structure(e, ear); ok {
			h.Routes = append(h.Routes, r)
		}
	}
	h.Routes = tidy(append(h.Routes, background(ear)), rest.routes())
	s.boat.guessed(h.Routes)
	h.sum()
	h.Notes = s.notes(ear)
	return h
}

// find looks for the ways by air from an emitter to a listener.
func (s *scene) find(e *emitter, ear *listening) []trail {
	start := e.trail().entered(e.place)
	if e.place == Outside {
		return s.fromOutside(start, e, ear)
	}
	return s.fromRoom(start, e, ear)
}

// notes say what the figure at a listener does not hold.
func (s *scene) notes(ear Listener) []string {
	r, inside := s.rooms[ear.In]
	if !inside {
		return nil
	}
	rest := "Sound of the gearbox, propeller and shaft bearings is not held."
	if s.layout.onlySets() {
		rest = "Sound of pumps and pipes of a set that stand on the hull themselves is not held."
	}
	return []string{
		fmt.Sprintf("Below the Schroeder frequency of %s, %.0f Hz, single modes rule: the level there differs by ±5 dB from seat to seat.", ear.In, r.Schroeder()),
		"Through mounts and hull the levels below 250 Hz are a ceiling, not an estimate: the plates of small craft have few modes there. " + rest,
	}
}

// onlySets tells whether nothing that runs drives a propeller.
func (l *Layout) onlySets() bool {
	return !slices.ContainsFunc(l.Engines, func(e Engine) bool { return !e.Stopped && e.LoadLaw() == source.Propeller })
}

// mostRoutes is how many routes are listed at most, those through mounts and hull among them.
const mostRoutes = 30

// asked tells whether a route is listed however quiet it is: the way through mounts and hull, one for each engine, and
// what is heard without them are asked for by name.
func (r *Route) asked() bool { return r.Way == ByStructure || r.Way == ByBackground }

// tidy sorts routes, loudest first, and sums up those too quiet to matter, with the rest.
func tidy(routes, rest []Route) []Route {
	order, level, most := make([]int, len(routes)), make([]float64, len(routes)), mostRoutes
	for i := range routes {
		if order[i], level[i] = i, routes[i].DBA(); routes[i].asked() {
			most--
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return level[order[i]] > level[order[j]] })
	limit := level[order[0]] - keepBelow
	listed, quiet := make([]Route, 0, min(len(routes), mostRoutes+1)), order[:0]
	for _, i := range order {
		switch {
		case routes[i].asked():
			listed = append(listed, routes[i])
		case level[i] >= limit && most > 0:
			listed = append(listed, routes[i])
			most--
		default:
			quiet = append(quiet, i)
		}
	}
	for _, r := range rest {
		quiet, routes = append(quiet, len(routes)), append(routes, r)
	}
	for i := range listed {
		listed[i].complete()
	}
	if len(quiet) > 0 {
		listed = append(listed, minor(routes, quiet))
	}
	return listed
}

// minor sums up quiet routes into one, which keeps their doubts.
func minor(all []Route, quiet []int) Route {
	var sum, weighted, outlets spectrum.Bands
	for _, i := range quiet {
		bands := powers(all[i].Bands)
		sum, weighted = sum.Plus(bands), weighted.Plus(powers(all[i].Weighted()))
		if all[i].Way == ByOutlet {
			outlets = outlets.Plus(bands)
		}
	}
	total := levels(sum)
	for b := range outlets {
		if sum[b] > 0 {
			outlets[b] /= sum[b]
		}
	}
	sum, weighted = total, levels(weighted)
	return Route{
		Source: "all others", Route: "quiet routes together", Bands: sum, outlets: outlets, AWeight: weighted.Minus(sum),
		Steps: []Step{{Name: "sum of the quiet routes", Formula: "energy sum", Source: "definition of the level",
			Mark: "derived", Bands: sum, Uncertain: pooled(all, quiet, sum)}},
	}
}

// pooled are the doubts of a sum of routes: each cause with its mean over the energy of the sum, by band.
func pooled(routes []Route, quiet []int, sum spectrum.Bands) []Uncertain {
	last := map[string]int{} // of a key, its place in all and one more
	var all []Uncertain
	var before []int // the one of the same key before it, likewise
	for _, l := range loaded(routes, quiet, sum) {
		for i := range l.steps {
			for n := range l.steps[i].Uncertain {
				u := &l.steps[i].Uncertain[n]
				at := last[u.Key]
				for at > 0 && !u.causeOf(&all[at-1]) {
					at = before[at-1]
				}
				if at == 0 {
					all, before = append(all, *u), append(before, last[u.Key])
					at = len(all)
					all[at-1].SD, last[u.Key] = spectrum.Bands{}, at
				}
				for b, share := range l.share {
					all[at-1].SD[b] += u.SD[b] * share
				}
			}
		}
	}
	return all
}

// causeOf tells whether two doubts are of one cause: of one key each line may mix the causes in its own way.
func (u *Uncertain) causeOf(o *Uncertain) bool {
	return u.Term == o.Term && u.Source == o.Source && len(u.Mix) == len(o.Mix) && (len(u.Mix) == 0 || &u.Mix[0] == &o.Mix[0])
}

// load is a piece of routes with their share in the energy of a sum.
type load struct {
	steps []Step
	share spectrum.Bands
}

// loaded are the pieces of routes in the order met, each once: most are common to many.
func loaded(routes []Route, quiet []int, sum spectrum.Bands) (all []load) {
	type piece struct {
		first *Step
		n     int
	}
	at := map[piece]int{}
	for _, i := range quiet {
		share := powers(routes[i].Bands.Minus(sum))
		routes[i].legs(func(steps []Step) {
			if len(steps) == 0 {
				return
			}
			p := piece{&steps[0], len(steps)}
			if k, ok := at[p]; ok {
				all[k].share = all[k].share.Plus(share)
				return
			}
			at[p], all = len(all), append(all, load{steps, share})
		})
	}
	return all
}

// fromOutside leads from an emitter in the open to a listener.
func (s *scene) fromOutside(t trail, e *emitter, ear *listening) []trail {
	if ear.In == Outside {
		return []trail{t.with("open air", s.outdoors(ends{e: e, to: ear.At})...)}
	}
	var out []trail
	for i := range s.entries(e) {
		n := &e.entry[i]
		in := t.with(n.wall.label(), n.steps...)
		in.cracked = n.wall.crack()
		out = append(out, s.inside(in, n.inner, n.wall, ear, 1)...)
	}
	return out
}

// fromRoom leads from an emitter in a room to a listener.
func (s *scene) fromRoom(t trail, e *emitter, ear *listening) []trail {
	if ear.In == e.place {
		d := s.distanceIn(e.place, e.at, s.stated(e), ear.At)
		return []trail{t.with("same space", s.roomSteps(e.place, d)...)}
	}
	return s.through(t, e.place, ear, 0)
}

// through leads from a room that holds sound power through each of its walls.
func (s *scene) through(t trail, place string, ear *listening, walls int) []trail {
	if s.ends(&t, walls) {
		return nil
	}
	var out []trail
	for i := range s.walls {
		w := &s.walls[i]
		far, ok := w.other(place)
		if !ok || t.passed(far) {
			continue
		}
		if t.cracked && w.crack() {
			continue
		}
		next := t.with(w.label(), s.acrossWall(place, w)...)
		next.cracked = t.cracked || w.crack()
		if far == Outside {
			out = append(out, s.outOfWall(next.entered(Outside), w, ear, walls+1)...)
			continue
		}
		out = append(out, s.inside(next, far, w, ear, walls+1)...)
	}
	return out
}

// inside is a trail that brings sound power into a room through wall w.
func (s *scene) inside(t trail, place string, w *wall, ear *listening, walls int) []trail {
	if _, ok := s.rooms[place]; !ok {
		return nil
	}
	t = t.entered(place)
	if ear.In == place {
		return []trail{t.with("", ear.lets[w]...)}
	}
	return s.through(t, place, ear, walls)
}

// outOfWall leads from the outer face of a wall to a listener outside or into another space.
func (s *scene) outOfWall(t trail, w *wall, ear *listening, walls int) []trail {
	if ear.In == Outside {
		return []trail{t.with("open air", ear.open[w]...)}
	}
	if s.ends(&t, walls) {
		return nil
	}
	var out []trail
	for i := range s.entries(s.face(w)) {
		if n := &w.outer.entry[i]; !t.passed(n.inner) {
			out = append(out, s.inside(t.with(n.wall.label(), n.steps...), n.inner, n.wall, ear, walls+1)...)
		}
	}
	return out
}

// distanceIn is the way from a to a listener in a room; half the room's diagonal where a is not known.
func (s *scene) distanceIn(place string, a Point, known bool, ear Point) float64 {
	sp, _ := s.layout.space(place)
	half := sp.diagonal() / 2
	if !known {
		return math.Max(half, 0.5)
	}
	return math.Min(distance(a, ear, 0.5), 2*half)
}
