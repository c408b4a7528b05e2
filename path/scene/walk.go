package scene

import (
	"slices"
	"sync"

	"hushwake/path"
	"hushwake/path/room"
	"hushwake/source/spectrum"
)

// door is a wall as seen from a space: what lies behind it is a place in the balance, room.Sink for the open air.
type door struct {
	wall *wall
	side int
	far  int
}

// doorsOf lists the walls of each space in the order of the file.
func (s *scene) doorsOf() [][]door {
	out := make([][]door, len(s.node))
	for i := range s.walls {
		w := &s.walls[i]
		for side, name := range w.Between {
			if from, far := s.nodeOf(name), s.nodeOf(w.Between[1-side]); from != room.Sink {
				out[from] = append(out[from], door{w, side, far})
			}
		}
	}
	return out
}

// walk looks for the ways by air from an emitter to a listener, in the order of walls in the file.
type walk struct {
	*scene
	ear   *listening
	at    int // place of the ear
	start spectrum.Bands
	most  int // walls on a way
	*sheets
}

// sheets are what a walk is written on, to be used again.
type sheets struct {
	passed []int // places of the trail in hand
	found  []trail
	turns  []turn
	room   []leg // for the next legs
}

var blank = sync.Pool{New: func() any { return new(sheets) }}

// find looks for the ways by air from an emitter to a listener.
func (s *scene) find(e *emitter, ear *listening) *tails {
	k := walk{scene: s, ear: ear, at: s.nodeOf(ear.In), start: e.bands, most: maxWalls, sheets: blank.Get().(*sheets)}
	defer blank.Put(k.sheets)
	if s.form.Fast() {
		k.most = freeWalls
	}
	var t trail
	from := s.nodeOf(e.place)
	k.passed, k.found, k.turns = append(k.passed[:0], from), k.found[:0], k.turns[:0]
	switch {
	case k.at == room.Sink && ear.In != path.Outside: // nothing leads into a space that the layout lacks
	case from == room.Sink && k.at == room.Sink:
		k.arrive(&t, "open air", s.outdoors(ends{e: e, to: ear.At}))
	case from == room.Sink:
		k.enter(&t, e, 0)
	case from == k.at:
		k.arrive(&t, "same space", s.roomSteps(e.place, s.distanceIn(e.place, e.At, s.stated(e), ear.At)))
	default:
		k.through(&t, from, 0)
	}
	return &tails{start: e.bands, all: slices.Clone(k.found), turns: slices.Clone(k.turns)}
}

// through leads from a room that holds sound power through each of its walls.
func (k *walk) through(t *trail, place, walls int) {
	if k.ends(t, walls) {
		return
	}
	var next trail // one for all, for its place is lent to the ways from there
	for i := range k.doors[place] {
		d := &k.doors[place][i]
		if k.vain(d.far, walls+1) || t.cracked && d.wall.crack() || slices.Contains(k.passed, d.far) {
			continue
		}
		next = k.onward(t, d.wall, k.across(d.wall, d.side), nil)
		if d.far == room.Sink {
			k.outOf(&next, d.wall, walls+1)
		} else {
			k.inside(&next, d.far, d.wall, walls+1)
		}
	}
}

// vain tells whether a way that has come to a place through that many walls gets no farther and has not arrived.
func (k *walk) vain(place, walls int) bool { return walls >= k.most && place != k.at }

// inside is a trail that brings sound power into a room through wall w.
func (k *walk) inside(t *trail, place int, w *wall, walls int) {
	if place == k.at {
		k.arrive(t, "", k.ear.lets[w.number])
		return
	}
	k.passed = append(k.passed, place)
	k.through(t, place, walls)
	k.passed = k.passed[:len(k.passed)-1]
}

// outOf leads from the outer face of a wall to a listener outside or into another space.
func (k *walk) outOf(t *trail, w *wall, walls int) {
	if k.at == room.Sink {
		k.arrive(t, "open air", k.ear.open[w.number])
		return
	}
	if k.ends(t, walls) {
		return
	}
	k.passed = append(k.passed, room.Sink)
	k.enter(t, k.face(w), walls)
	k.passed = k.passed[:len(k.passed)-1]
}

// enter leads from an emitter in the open, or the outer face of a wall, into each room.
func (k *walk) enter(t *trail, from *emitter, walls int) {
	all := k.entries(from)
	var next trail
	for i := range all {
		if n := &all[i]; !k.vain(n.inner, walls+1) && !slices.Contains(k.passed, n.inner) {
			next = k.onward(t, n.wall, n.onto, n.wall.own)
			k.inside(&next, n.inner, n.wall, walls+1)
		}
	}
}

// onward takes a trail on through a wall.
func (k *walk) onward(t *trail, w *wall, steps []path.Step, own *path.Step) trail {
	next := k.with(t, leg{word: w.label, steps: steps, wall: own})
	next.cracked = t.cracked || w.crack()
	return next
}

// arrive ends one at the ear.
func (k *walk) arrive(t *trail, word string, steps []path.Step) {
	last := k.with(t, leg{word: word, steps: steps})
	last.energy = spectrum.Powers(last.gain)
	k.found = append(k.found, last)
}

// with takes a trail on by a leg.
func (k *walk) with(t *trail, l leg) trail {
	if len(k.room) == 0 {
		k.room = make([]leg, 64)
	}
	next := trail{last: &k.room[0], gain: t.gain, turn: t.turn}
	k.room = k.room[1:]
	for i := range l.steps {
		next.add(&l.steps[i].Bands)
	}
	if l.wall != nil {
		next.add(&l.wall.Bands)
	}
	l.before = t.last
	*next.last = l
	return next
}

// ends tells whether a trail is not worth following through another wall.
func (k *walk) ends(t *trail, walls int) bool {
	ended := k.tooFaint(k.start.Plus(t.gain), walls)
	if k.levelCounts(walls) {
		k.turns = append(k.turns, turn{t.gain, walls, t.turn, ended})
		t.turn = len(k.turns)
	}
	return ended
}
