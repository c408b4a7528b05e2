package scene

import (
	"fmt"
	"math"
	"sync"

	"hushwake/path"
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
	if s.form.Fast() {
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
	if s.form.Fast() {
		return walls >= 1 && walls < freeWalls
	}
	return walls >= freeWalls && walls < maxWalls
}

// keepBelow is how far below the loudest a route is still listed, dB(A); the rest is summed up.
const keepBelow = 30.0

// arrivalSheets are what arrivals are written on before they are tidied, to be used again.
var arrivalSheets = sync.Pool{New: func() any { return new([]arrival) }}

// hear finds every route from the emitters to a listener.
func (s *scene) hear(all []emitter, ear path.Listener) path.Heard {
	h := path.Heard{Listener: ear, Notes: s.notes(ear)}
	sheets := arrivalSheets.Get().(*[]arrival)
	defer arrivalSheets.Put(sheets)
	got, rest := s.arriving((*sheets)[:0], all, ear, below(s.form))
	h.Routes, *sheets = tidy(got, rest), got
	s.boat.Guessed(h.Routes)
	h.Sum()
	return h
}

// level is what a listener hears of the emitters, dB(A), without its routes; ways far below the others count by their octaves.
func (s *scene) level(all []emitter, ear path.Listener) float64 {
	sheets := arrivalSheets.Get().(*[]arrival)
	defer arrivalSheets.Put(sheets)
	got, rest := s.arriving((*sheets)[:0], all, ear, farBelow)
	*sheets = got
	sum := 0.0
	for _, list := range [2][]arrival{got, rest} {
		for i := range list {
			sum += total(&list[i].weighted)
		}
	}
	return spectrum.Level(sum)
}

// arriving adds what comes to a listener by each way, and gives the sums of what lies so far below the loudest.
func (s *scene) arriving(got []arrival, all []emitter, ear path.Listener, below float64) (near, rest []arrival) {
	at, ways := s.ear(ear), make([][]*trail, len(all))
	for i := range all {
		ways[i] = s.trails(&all[i], at)
	}
	faint := newFar(all, ways, below)
	for i := range all {
		e := &all[i]
		first := &leg{word: e.how, steps: e.steps}
		for n, t := range ways[i] {
			if !faint.takes(e, t) {
				got = append(got, t.arrives(e, n, first))
			}
		}
		if r, ok := s.structure(e, ear); ok {
			got = append(got, arrivalOf(&r))
		}
	}
	quiet := path.BackgroundRoute(ear)
	return append(got, arrivalOf(&quiet)), faint.arrivals()
}

// notes say what the figure at a listener does not hold.
func (s *scene) notes(ear path.Listener) []string {
	r, inside := s.rooms[ear.In]
	if !inside {
		return nil
	}
	rest := "Sound of the gearbox, propeller and shaft bearings is not held."
	if s.layout.OnlySets() {
		rest = "Sound of pumps and pipes of a set that stand on the hull themselves is not held."
	}
	return []string{
		fmt.Sprintf("Below the Schroeder frequency of %s, %.0f Hz, single modes rule: the level there differs by ±5 dB from seat to seat.", ear.In, r.Schroeder()),
		"Through mounts and hull the levels below 250 Hz are a ceiling, not an estimate: the plates of small craft have few modes there. " + rest,
	}
}

// distanceIn is the way from a to a listener in a room; half the room's diagonal where a is not known.
func (s *scene) distanceIn(place string, a path.Point, known bool, ear path.Point) float64 {
	sp, _ := s.layout.Space(place)
	half := sp.Diagonal() / 2
	if !known {
		return math.Max(half, 0.5)
	}
	return math.Min(path.Distance(a, ear, 0.5), 2*half)
}
