package scene

import (
	"hushwake/path"
	"hushwake/path/room"
	"hushwake/source/spectrum"
)

// nodeOf is the place of a space in the balance.
func (s *scene) nodeOf(space string) int {
	if i, ok := s.node[space]; ok {
		return i
	}
	return room.Sink
}

// entry is a way from an emitter in the open into a room.
type entry struct {
	wall   *wall
	inner  int            // place of the room in the balance
	onto   []path.Step    // up to the wall
	energy spectrum.Bands // what gets in of 1 W
}

// entries are the ways from an emitter in the open into rooms, worked out once.
func (s *scene) entries(e *emitter) []entry {
	if e.entry != nil {
		return e.entry
	}
	if e.wall == nil {
		k := s.key(e, path.Full)
		if e.entry = s.known.entries[k]; e.entry != nil {
			return e.entry
		}
		defer func() { s.known.entries[k] = e.entry }()
	}
	e.entry = []entry{}
	for i, onto := range s.ontoWalls(e) {
		if onto == nil {
			continue
		}
		w := &s.walls[i]
		inner, _ := w.Other(path.Outside)
		in := trail{}.with("", onto...)
		in.add(&w.own.Bands)
		e.entry = append(e.entry, entry{wall: w, inner: s.nodeOf(inner), onto: onto, energy: spectrum.Powers(in.gain)})
	}
	return e.entry
}

// face is the outer side of a wall as an emitter in the open.
func (s *scene) face(w *wall) *emitter {
	if w.outer == nil {
		w.outer = &emitter{Site: path.Site{At: w.at}, place: path.Outside, wall: w}
	}
	return w.outer
}

// faceTowards is the outer side of a wall as it gives sound off towards a point.
func (s *scene) faceTowards(w *wall, to path.Point) *emitter {
	return &emitter{Site: w.site(to, s), place: path.Outside, wall: w}
}

// times multiplies band by band.
func times(a, b spectrum.Bands) spectrum.Bands {
	for i := range a {
		a[i] *= b[i]
	}
	return a
}
