package scene

import (
	"fmt"

	"hushwake/path"
	"hushwake/path/room"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// couple sets up the power balance of the spaces with their walls, per band. The open air is a sink: what comes
// back in from it enters as power of its own.
func (s *scene) couple(rooms []room.Room) {
	joints := make([]room.Joint, len(s.walls))
	for i := range s.walls {
		w := &s.walls[i]
		joints[i] = room.Joint{Rooms: [2]int{s.nodeOf(w.Between[0]), s.nodeOf(w.Between[1])}, Through: w.through}
	}
	s.balance, rooms = room.Couple(rooms, joints)
	for i := range rooms {
		s.rooms[rooms[i].Name] = rooms[i]
	}
}

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

// listening is what one listener needs of the scene, the same for all emitters. Energies are ratios to
// the sound power in W re 1 pW at the reference pressure.
type listening struct {
	path.Listener
	lets   [][]path.Step    // by wall: from the power that it lets into the listener's space to the ear
	open   [][]path.Step    // by wall: from its outer face to a listener in the open
	within []spectrum.Bands // by space: energy at the ear of 1 W there by way of inside walls
	whole  []spectrum.Bands // the same and by way of outside
	fields []spectrum.Bands // by wall: energy at the ear of 1 W through it
}

// listen prepares a listener.
func (s *scene) listen(ear path.Listener) *listening {
	h := &listening{Listener: ear, lets: make([][]path.Step, len(s.walls)), open: make([][]path.Step, len(s.walls)), fields: make([]spectrum.Bands, len(s.walls)),
		within: make([]spectrum.Bands, len(s.node)), whole: make([]spectrum.Bands, len(s.node))}
	for i := range s.walls {
		w := &s.walls[i]
		if far, ok := w.Other(ear.In); ok && far != ear.In {
			s.hearWall(h, w, far)
		}
	}
	s.byOutside(h)
	return h
}

// hearWall adds a wall of the listener's space, or one that looks out where the listener is in the open.
func (s *scene) hearWall(h *listening, w *wall, far string) {
	var steps []path.Step
	if h.In == path.Outside {
		steps = s.outOf(w, h.At)
		h.open[w.number] = steps
	} else {
		steps = s.entrySteps(h.In, w, s.distanceIn(h.In, w.at, w.known, h.At))
		h.lets[w.number] = steps
	}
	field := spectrum.Powers(trail{}.with("", steps...).gain)
	h.fields[w.number] = field
	if far != path.Outside {
		s.spread(h.within, s.nodeOf(far), times(w.through, field))
	}
}

// spread adds what the walls of a space bring to the ear, e per intensity on them, for 1 W in each space.
func (s *scene) spread(to []spectrum.Bands, at int, e spectrum.Bands) {
	for from := range to {
		to[from] = to[from].Plus(times(s.balance.Incident(from, at), e))
	}
}

// byOutside adds to what comes by inside walls what leaves by one wall and comes in by another. In the open
// that is not needed: there every wall that looks out is one of the listener's.
func (s *scene) byOutside(h *listening) {
	copy(h.whole, h.within)
	if h.In == path.Outside {
		return
	}
	for i := range s.walls {
		w := &s.walls[i]
		inner, ok := w.Other(path.Outside)
		if !ok {
			continue
		}
		var sum spectrum.Bands
		at := s.nodeOf(inner)
		for k := range s.entries(s.face(w)) {
			if v := &w.outer.entry[k]; v.inner != at {
				sum = sum.Plus(times(v.energy, h.through(v.wall, v.inner)))
			}
		}
		s.spread(h.whole, at, times(w.through, sum))
	}
}

// through is the energy at the ear of 1 W that comes from the open through a wall into a space.
func (h *listening) through(w *wall, space int) spectrum.Bands {
	return h.fields[w.number].Plus(h.within[space])
}

// beyond is what the power balance holds over the trails listed: sound that goes back and forth between rooms
// and trails too faint to follow. ok is false where that is less than a ten-thousandth in every band.
func (s *scene) beyond(e *emitter, h *listening, listed []*trail) (t trail, ok bool) {
	all, place := s.energyOf(e, h), h.In
	if place == path.Outside {
		place = e.place
	}
	if place == path.Outside {
		return t, false
	}
	var rest spectrum.Bands
	for b := range rest {
		left := all[b]
		for _, t := range listed {
			left -= t.energy[b]
		}
		ok = ok || left > 1e-4*all[b]
		if left <= 1e-9*all[b] {
			left = 0
		}
		rest[b] = spectrum.Level(left)
	}
	return trail{}.with("between the rooms", path.Step{Name: "back and forth between the rooms, and ways too faint to list",
		Cited: published.By("10 lg(power balance of all spaces - routes listed)", room.ThroughSource, "derived"),
		Bands: rest, Uncertain: s.roomSD(place)}), ok
}

// energyOf is all that an emitter brings to the ear by air, of 1 W.
func (s *scene) energyOf(e *emitter, h *listening) (all spectrum.Bands) {
	if e.place != path.Outside {
		all = h.whole[s.nodeOf(e.place)]
		if e.place == h.In {
			all = all.Plus(spectrum.Powers(s.rooms[h.In].Gain(1, s.distanceIn(h.In, e.At, s.stated(e), h.At))))
		}
		return all
	}
	for _, n := range s.entries(e) {
		all = all.Plus(times(n.energy, h.through(n.wall, n.inner)))
	}
	return all
}

// times multiplies band by band.
func times(a, b spectrum.Bands) spectrum.Bands {
	for i := range a {
		a[i] *= b[i]
	}
	return a
}

// machinery is the least mean absorption of a space that holds an engine: machinery, gratings, pipes and people
// absorb, whatever the lining. Judgement, within the 0.06 to 0.19 of a worked engine room in UFC 3-450-02
// (room constant over surface 0.06 to 0.23); bare steel brings levels some 10 dB over measured ones.
var machinery = spectrum.Bands{0.10, 0.10, 0.10, 0.11, 0.12, 0.13, 0.14, 0.15, 0.15}

// machinerySD is the doubt of it, dB (judgement: a factor of two).
const machinerySD = 3.0

// furnish raises the absorption of a space that holds an engine to that of its machinery, and says so.
func (s *scene) furnish(sp *path.Space, alpha spectrum.Bands) spectrum.Bands {
	if !s.layout.HoldsEngine(sp.Name) {
		return alpha
	}
	var doubt spectrum.Bands
	for b := range alpha {
		if alpha[b] > 0 && alpha[b] < machinery[b] {
			alpha[b], doubt[b] = machinery[b], machinerySD
		}
	}
	if doubt == (spectrum.Bands{}) {
		return alpha
	}
	s.machinery[sp.Name] = doubt
	s.assume("spaces."+sp.Name+" machinery", fmt.Sprintf("absorbs at least %.2f to %.2f of the sound that meets the walls", machinery[0], machinery[spectrum.N-1]),
		"judgement: machinery, gratings, pipes and people, over the lining "+sp.Lining, machinerySD)
	return alpha
}
