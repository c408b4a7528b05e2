package path

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"sync"

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
		return walls >= freeWalls || s.levelCounts(walls) && under(&level, fastFaintest)
	}
	return walls >= maxWalls || s.levelCounts(walls) && under(&level, faintest)
}

// under tells whether a level is under so many dB(A); nine equal octaves lie 9.54 dB over one of them.
func under(level *spectrum.Bands, limit float64) bool {
	most := spectrum.Silent
	for b, v := range level {
		most = max(most, v+spectrum.A[b])
	}
	switch {
	case most > limit+0.01:
		return false
	case most < limit-9.6:
		return true
	}
	return level.DBA() < limit
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

// routeSheets are what routes are written on before they are tidied, to be used again.
var routeSheets = sync.Pool{New: func() any { return new([]Route) }}

// hear finds every route from the emitters to a listener.
func (s *scene) hear(all []emitter, ear Listener) Heard {
	h, at, ways, n := Heard{Listener: ear}, s.ear(ear), make([][]*trail, len(all)), 1
	for i := range all {
		ways[i] = s.trails(&all[i], at)
		n += len(ways[i]) + 1
	}
	rest := newFar(all, ways, s.form.below())
	held := routeSheets.Get().(*[]Route)
	routes := slices.Grow((*held)[:0], n)
	for i := range all {
		e := &all[i]
		first := &leg{word: e.how, steps: e.steps}
		for _, t := range ways[i] {
			if !rest.takes(e, t) {
				routes = append(routes, t.closed(e, first))
			}
		}
		if r, ok := s.structure(e, ear); ok {
			routes = append(routes, r)
		}
	}
	routes = append(routes, background(ear))
	h.Routes = tidy(routes, rest.routes())
	*held = routes
	routeSheets.Put(held)
	s.boat.guessed(h.Routes)
	h.Bands = sumOf(h.Routes, unweighted)
	h.Notes = s.notes(ear)
	return h
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
	all := append(routes, rest...)
	order, level, most, weighted := make([]int, len(routes)), make([]float64, len(routes)), mostRoutes, weightedPowers(all)
	for i := range routes {
		if order[i], level[i] = i, spectrum.Level(total(&weighted[i])); routes[i].asked() {
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
	for i := range rest {
		quiet = append(quiet, len(routes)+i)
	}
	for i := range listed {
		listed[i].complete()
	}
	if len(quiet) > 0 {
		listed = append(listed, minor(all, quiet, weighted))
	}
	return listed
}

// weightedPowers are the A-weighted energies of routes.
func weightedPowers(routes []Route) []spectrum.Bands {
	out := make([]spectrum.Bands, len(routes))
	for i := range routes {
		out[i] = powers(routes[i].Weighted())
	}
	return out
}

// total is the sum over the bands.
func total(b *spectrum.Bands) (sum float64) {
	for _, v := range b {
		sum += v
	}
	return sum
}

// minor sums up quiet routes into one, which keeps their doubts; energies are the A-weighted ones of all.
func minor(all []Route, quiet []int, energies []spectrum.Bands) Route {
	var sum, weighted, outlets spectrum.Bands
	for _, i := range quiet {
		bands := powers(all[i].Bands)
		sum, weighted = sum.Plus(bands), weighted.Plus(energies[i])
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
		l.doubts(func(u *Uncertain) {
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
		})
	}
	return all
}

// causeOf tells whether two doubts are of one cause: of one key each line may mix the causes in its own way.
func (u *Uncertain) causeOf(o *Uncertain) bool {
	return u.Term == o.Term && u.Source == o.Source && len(u.Mix) == len(o.Mix) && (len(u.Mix) == 0 || &u.Mix[0] == &o.Mix[0])
}

// load is a piece of routes with their share in the energy of a sum.
type load struct {
	*leg
	share spectrum.Bands
}

// doubts shows those of its steps in order.
func (l *leg) doubts(see func(u *Uncertain)) {
	for i := range l.steps {
		for n := range l.steps[i].Uncertain {
			see(&l.steps[i].Uncertain[n])
		}
	}
	if l.wall != nil {
		for n := range l.wall.Uncertain {
			see(&l.wall.Uncertain[n])
		}
	}
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
		routes[i].legs(func(l *leg) {
			if len(l.steps) == 0 {
				return
			}
			p := piece{&l.steps[0], len(l.steps)}
			k, ok := at[p]
			if !ok {
				k, at[p], all = len(all), len(all), append(all, load{leg: l})
			}
			all[k].share = all[k].share.Plus(share)
		})
	}
	return all
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
