package scene

import (
	"cmp"
	"slices"
	"sync/atomic"

	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// arrival is what comes to a listener by one way: of most nobody asks for words and steps.
type arrival struct {
	energy, weighted spectrum.Bands // by octave, unweighted and A-weighted
	way              path.Way
	whole            *path.Route // put together already; nil = of the trail of an emitter behind its first leg
	by               *emitter
	first            *leg
	trail            *trail
}

// arrives gives what the trail of that number of an emitter brings, first being its first leg. It is kept from the second time
// on that the emitter gives the same.
func (t *trail) arrives(e *emitter, n int, first *leg) arrival {
	a, m, level := arrival{way: e.way, by: e, first: first, trail: t}, e.given, e.bands.Plus(t.gain)
	if m != nil && n < len(m.brought) {
		a.energy, a.weighted = m.brought[n][0], m.brought[n][1]
		return a
	}
	if e.tones != nil {
		a.energy, a.weighted = e.tones.Energies(level.Minus(e.tones.UpTo))
	} else {
		a.energy = spectrum.Powers(level)
		a.weighted = times(a.energy, tones.APower)
	}
	if m != nil && n == len(m.brought) {
		m.brought = append(m.brought, [2]spectrum.Bands{a.energy, a.weighted})
	}
	return a
}

// arrivalOf gives what a route brings.
func arrivalOf(r *path.Route) arrival {
	return arrival{energy: spectrum.Powers(r.Bands), weighted: spectrum.Powers(r.Weighted()), way: r.Way, whole: r}
}

// route puts it together.
func (a *arrival) route() path.Route {
	if a.whole != nil {
		return *a.whole
	}
	return a.trail.route(a.by, a.first)
}

// legs adds its pieces in order.
func (a *arrival) legs(all []*leg) []*leg {
	if a.trail != nil {
		return a.trail.last.upTo(a.first.upTo(all))
	}
	return append(all, &leg{steps: a.whole.Steps})
}

// mostRoutes is how many routes are listed at most, those through mounts and hull among them.
const mostRoutes = 30

// asked tells whether a route is listed however quiet it is: the way through mounts and hull, one for each engine, and
// what is heard without them are asked for by name.
func (a *arrival) asked() bool { return a.way == path.ByStructure || a.way == path.ByBackground }

// tidy sorts arrivals, loudest first, and sums up those too quiet to matter, with the rest.
func tidy(all, rest []arrival) []path.Route {
	order, level, most := make([]int, len(all)), make([]float64, len(all)), mostRoutes
	for i := range all {
		if order[i], level[i] = i, spectrum.Level(total(&all[i].weighted)); all[i].asked() {
			most--
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(level[j], level[i]) })
	limit := level[order[0]] - keepBelow
	listed, quiet := make([]path.Route, 0, min(len(all), mostRoutes+1)), make([]*arrival, 0, len(all)+len(rest))
	for _, i := range order {
		a := &all[i]
		switch {
		case a.asked():
			listed = append(listed, a.route())
		case level[i] >= limit && most > 0:
			listed = append(listed, a.route())
			most--
		default:
			quiet = append(quiet, a)
		}
	}
	for i := range rest {
		quiet = append(quiet, &rest[i])
	}
	if len(quiet) > 0 {
		listed = append(listed, minor(quiet))
	}
	return listed
}

// total is the sum over the bands.
func total(b *spectrum.Bands) (sum float64) {
	for _, v := range b {
		sum += v
	}
	return sum
}

// minor sums up quiet arrivals into one route, which keeps their doubts.
func minor(quiet []*arrival) path.Route {
	var energy, weighted, outlets spectrum.Bands
	for _, a := range quiet {
		energy, weighted = energy.Plus(a.energy), weighted.Plus(a.weighted)
		if a.way == path.ByOutlet {
			outlets = outlets.Plus(a.energy)
		}
	}
	for b := range outlets {
		energy[b] = max(energy[b], spectrum.Power(spectrum.Silent))
		outlets[b] /= energy[b]
	}
	sum := spectrum.Levels(energy)
	return path.Route{
		Source: "all others", Route: "quiet routes together", Bands: sum, Outlets: outlets, AWeight: spectrum.Levels(weighted).Minus(sum),
		Steps: []path.Step{{Name: "sum of the quiet routes", Cited: published.By("energy sum", "definition of the level", "derived"), Bands: sum, Uncertain: pooled(quiet, energy)}},
	}
}

// usualDoubts is how many causes of doubt the quiet ways to a seat have together, most often.
const usualDoubts = 128

// pooled are the doubts of a sum of arrivals: each cause with its mean over the energy of the sum, by band.
func pooled(quiet []*arrival, sum spectrum.Bands) []path.Uncertain {
	last := make(map[string]int, usualDoubts)                                          // of a key, its place in all and one more
	all, before := make([]path.Uncertain, 0, usualDoubts), make([]int, 0, usualDoubts) // the one of the same key before it, likewise
	for _, l := range loaded(quiet, sum) {
		l.doubts(func(u *path.Uncertain) {
			at := last[u.Key]
			for at > 0 && !u.CauseOf(&all[at-1]) {
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

// load is a piece of arrivals with their share in the energy of a sum.
type load struct {
	*leg
	share spectrum.Bands
}

// doubts shows those of its steps in order.
func (l *leg) doubts(see func(u *path.Uncertain)) {
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

// rounds numbers the sums of quiet arrivals.
var rounds atomic.Int64

// loaded are the pieces of arrivals in the order met, each once: most are common to many.
func loaded(quiet []*arrival, sum spectrum.Bands) (all []load) {
	type piece struct {
		first *path.Step
		n     int
	}
	at, round := map[piece]int{}, rounds.Add(1)
	var legs []*leg
	for _, a := range quiet {
		share := a.energy
		for b := range share {
			share[b] /= sum[b]
		}
		legs = a.legs(legs[:0])
		for _, l := range legs {
			if len(l.steps) == 0 {
				continue
			}
			if l.round != round { // legs alike are one piece
				p := piece{&l.steps[0], len(l.steps)}
				k, ok := at[p]
				if !ok {
					k, at[p], all = len(all), len(all), append(all, load{leg: l})
				}
				l.round, l.at = round, k
			}
			for b, v := range &all[l.at].share {
				all[l.at].share[b] = v + share[b]
			}
		}
	}
	return all
}
