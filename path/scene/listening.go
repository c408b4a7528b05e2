package scene

import (
	"hushwake/path"
	"hushwake/path/room"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

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
