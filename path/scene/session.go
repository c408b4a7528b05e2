package scene

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"sync"

	"hushwake/path"
	"hushwake/source/cores"
)

// Session predicts layouts of one boat many times over: its alternatives, the points of a sweep, the trials of a search.
// What lies between sources and listeners is worked out once for layouts of equal spaces, partitions and places of
// engines, an engine once for layouts that share it; these and the boat must not change while it lasts. Safe for use by
// several goroutines.
type Session struct {
	boat *path.Boat

	sync.Mutex
	first   map[stageKey]func() (*scene, error)
	idle    map[stageKey][]*scene
	houses  map[houseKey]int
	built   []house // of different spaces or partitions
	count   int     // of houses ever
	sources map[sourceKey]path.ExhaustResult
	lines   map[*path.Exhaust]*lineSolved
}

// sourceKey is an engine of a layout in a form.
type sourceKey struct {
	engine *path.Engine
	fast   bool
}

// NewSession begins a session.
func NewSession(b *path.Boat) *Session {
	return &Session{boat: b, first: map[stageKey]func() (*scene, error){}, idle: map[stageKey][]*scene{}, houses: map[houseKey]int{}, sources: map[sourceKey]path.ExhaustResult{}, lines: map[*path.Exhaust]*lineSolved{}}
}

// Predict works out one layout in a form of its choice.
func (n *Session) Predict(l *path.Layout, form path.Form) (path.Prediction, error) {
	return n.PredictFor(n.boat, l, form)
}

// PredictFor is Predict for a boat that differs from the session's in nothing but its listeners.
func (n *Session) PredictFor(b *path.Boat, l *path.Layout, form path.Form) (path.Prediction, error) {
	k := n.keyOf(l)
	s, err := n.take(k, l)
	if err != nil {
		return path.Prediction{Layout: l}, err
	}
	defer n.put(k, s)
	fresh := s.stage(l, form)
	fresh.boat = b
	return fresh.predict(n)
}

// maxStages bounds the memory of a session, in kinds of layout.
const maxStages = 32

// stageKey tells layouts apart by what stands between sources and listeners.
type stageKey struct {
	house   int
	engines string
}

// houseKey is where the spaces and partitions of a layout are kept.
type houseKey struct {
	spaces     *path.Space
	partitions *path.Partition
	count      [2]int
}

// house is one of the layouts that have these spaces and partitions.
type house struct {
	number int
	of     *path.Layout
}

func (n *Session) keyOf(l *path.Layout) stageKey {
	k := stageKey{house: n.house(l)}
	for i := range l.Engines {
		e := &l.Engines[i]
		k.engines += fmt.Sprint(e.Name, e.In, e.Enclosure, e.At, e.AtStated, e.Stopped)
	}
	return k
}

// house is a number that layouts of equal spaces and partitions share.
func (n *Session) house(l *path.Layout) int {
	k := houseKey{first(l.Spaces), first(l.Partitions), [2]int{len(l.Spaces), len(l.Partitions)}}
	n.Lock()
	defer n.Unlock()
	if h, ok := n.houses[k]; ok {
		return h
	}
	if len(n.built) >= maxStages || len(n.houses) >= maxSights {
		n.built = nil
		clear(n.houses)
		clear(n.idle)
		clear(n.first)
	}
	i := slices.IndexFunc(n.built, func(h house) bool {
		return reflect.DeepEqual(h.of.Spaces, l.Spaces) && reflect.DeepEqual(h.of.Partitions, l.Partitions)
	})
	if i < 0 {
		n.count++
		i, n.built = len(n.built), append(n.built, house{n.count, l})
	}
	n.houses[k] = n.built[i].number
	return n.built[i].number
}

func first[T any](list []T) *T {
	if len(list) == 0 {
		return nil
	}
	return &list[0]
}

// source is an engine at running and at rated, worked out once.
func (n *Session) source(e *path.Engine, form path.Form) (path.ExhaustResult, error) {
	k := sourceKey{e, form.Fast()}
	n.Lock()
	r, ok := n.sources[k]
	n.Unlock()
	if ok {
		return r, nil
	}
	r, err := form.Sources(e)
	n.Lock()
	defer n.Unlock()
	if len(n.sources) >= maxStages {
		clear(n.sources)
	}
	if err == nil {
		n.sources[k] = r
	}
	return r, err
}

// lineSolved is a line as it was last solved, and the engine that fed it.
type lineSolved struct {
	engine path.Engine
	path.ExhaustResult
}

// line is an engine with its line solved; for many speeds that of an engine which keeps its own is solved once.
func (n *Session) line(b *path.Boat, e *path.Engine, x *path.Exhaust, form path.Form) (path.ExhaustResult, error) {
	many, was := form == path.Points, (*lineSolved)(nil)
	if many {
		n.Lock()
		was = n.lines[x]
		n.Unlock()
		if was != nil && reflect.DeepEqual(was.engine, *e) {
			return was.ExhaustResult, nil
		}
	}
	r, err := n.source(e, form)
	if was != nil && reflect.DeepEqual(was.RatedSource, r.RatedSource) {
		r.Rated = was.Rated // at another speed
	}
	if err == nil {
		err = r.Solve(b, e, x, form)
	}
	if err == nil && many {
		n.Lock()
		defer n.Unlock()
		if len(n.lines) >= maxStages {
			clear(n.lines)
		}
		n.lines[x] = &lineSolved{*e, r}
	}
	return r, err
}

// take gives a scene that nobody else uses. What it shares with others of its kind is made by the first who asks for one.
func (n *Session) take(k stageKey, l *path.Layout) (*scene, error) {
	n.Lock()
	if free := n.idle[k]; len(free) > 0 {
		s := free[len(free)-1]
		n.idle[k] = free[:len(free)-1]
		n.Unlock()
		return s, nil
	}
	first, ok := n.first[k]
	if !ok {
		first = sync.OnceValues(func() (*scene, error) { return n.build(l) })
		n.first[k] = first
	}
	n.Unlock()
	s, err := first()
	if err != nil {
		return nil, err
	}
	return s.again(), nil
}

func (n *Session) put(k stageKey, s *scene) {
	n.Lock()
	defer n.Unlock()
	if len(n.idle) >= maxStages && n.idle[k] == nil {
		clear(n.idle)
		clear(n.first)
	}
	n.idle[k] = append(n.idle[k], s)
}

// build makes the first scene of a kind, with what the others share and only read: the ways across and between walls, and
// the listeners'.
func (n *Session) build(l *path.Layout) (*scene, error) {
	s, err := newScene(n.boat, l)
	if err != nil {
		return nil, err
	}
	ears := n.boat.Listeners
	inside := slices.ContainsFunc(ears, func(l path.Listener) bool { return l.In != path.Outside })
	cores.Each(len(s.walls), func(i int) {
		w := &s.walls[i]
		for side, place := range w.Between {
			if _, ok := s.rooms[place]; ok {
				s.across(w, side)
			}
		}
		if _, ok := w.Other(path.Outside); ok && inside {
			s.entries(s.face(w))
		}
	})
	heard := make([]*listening, len(ears))
	cores.Each(len(ears), func(i int) { heard[i] = s.listen(ears[i]) })
	for i, l := range ears {
		s.known.ears[earKey{l.In, l.At}] = heard[i]
	}
	return s, nil
}

// again is the same scene for one more that predicts beside the others.
func (s *scene) again() *scene {
	out := *s
	out.known = &ways{ears: maps.Clone(s.known.ears), trails: map[trailKey]*tails{}, entries: map[trailKey][]entry{}, given: map[trailKey]*emission{}}
	return &out
}

// stage is the scene made ready for one prediction: rooms, walls and ways already known stay, what depends on the
// running engines is new.
func (s *scene) stage(l *path.Layout, form path.Form) *scene {
	fresh := *s
	fresh.layout, fresh.form, fresh.feet = l, form, map[string]*path.Footing{}
	fresh.warnings, fresh.assumed = s.warnings[:len(s.warnings):len(s.warnings)], s.assumed[:len(s.assumed):len(s.assumed)]
	return &fresh
}
