package scene

import (
	"fmt"
	"sync"

	"hushwake/path"
	"hushwake/source/cores"
	"hushwake/source/spectrum"
)

// ground keeps the ways through the open air between places that scenes have in common: they hang on bodies, edges and
// where walls stand, not on what these are made of. Safe for use by several goroutines.
type ground struct {
	onto cores.Memo[groundKey, [][]path.Step] // by the number of the wall that they lead onto; nil = none
	off  cores.Memo[offKey, []path.Step]
}

// groundKey is where ways onto walls begin: at the outer face of a wall, or at an emitter (wall -1).
type groundKey struct {
	wall int
	trailKey
}

// offKey is a way from the outer face of a wall to a point in the open.
type offKey struct {
	wall int
	to   path.Point
}

// Bounds of the memory of a ground, some 100 kB and 1.5 kB each.
const (
	mostOnto = 256
	mostOff  = 1 << 12
)

// grounds are those of the scenes built last, in any session.
var grounds = struct {
	sync.Mutex
	known map[string]*ground
}{known: map[string]*ground{}}

// mostGrounds bounds them, some 5 MB each.
const mostGrounds = 8

// groundOf gives that of scenes alike in all that sound meets on its way through the open air.
func groundOf(s *scene) *ground {
	k := s.openAir()
	grounds.Lock()
	defer grounds.Unlock()
	g := grounds.known[k]
	if g == nil {
		if len(grounds.known) >= mostGrounds {
			clear(grounds.known)
		}
		g = &ground{}
		g.onto.Most, g.off.Most = mostOnto, mostOff
		grounds.known[k] = g
	}
	return g
}

// openAir tells a scene from others by all that its ways through the open air hang on.
func (s *scene) openAir() string {
	b := fmt.Append(nil, s.sights.Value(), s.air, s.boat.AmbientSound())
	for i := range s.walls {
		w := &s.walls[i]
		inner, _ := w.Other(path.Outside)
		b = fmt.Appendf(b, "\n%q %q %v %v %v %v %q %v %v %v", w.Label(), w.Between, w.at, w.known, w.Area, w.plane.area, w.Facing, w.Usual != nil, w.crack(), s.somewhere(inner))
	}
	for i := range s.layout.Spaces {
		sp := &s.layout.Spaces[i]
		b = fmt.Appendf(b, "\n%q %v %v %v", sp.Name, sp.At, sp.Size, sp.AtStated)
	}
	for i := range s.layout.Engines {
		of := s.outletKey(&emitter{engine: s.layout.Engines[i].Name})
		if sd := s.boat.Unstated(of); sd != 0 {
			b = fmt.Appendf(b, "\n%q %v", of, sd)
		}
	}
	return string(b)
}

// ontoWalls are the ways from an emitter in the open onto the walls that look there, worked out on all cores: the layouts
// of a file wait for the same ones.
func (s *scene) ontoWalls(e *emitter) [][]path.Step {
	k := groundKey{wall: -1}
	if e.wall != nil {
		k.wall = e.wall.number
	} else {
		k.trailKey = s.key(e, path.Full)
	}
	ways, _ := s.ground.onto.Get(k, func() ([][]path.Step, error) {
		all := make([][]path.Step, len(s.walls))
		cores.Each(len(all), func(i int) {
			w := &s.walls[i]
			if _, ok := w.Other(path.Outside); !ok || e.wall != nil && s.apart(e.wall, w) {
				return
			}
			from := e
			if e.wall != nil {
				from = s.faceTowards(e.wall, w.site(e.At, s).At)
			}
			all[i] = s.ontoWhole(from, w)
		})
		return all, nil
	})
	return ways
}

// apart tells whether no way leads from the outer face of a wall onto another: both are of one space, which no way enters twice,
// or one is a crack, and from wall to wall by that is far under what goes through the walls.
func (s *scene) apart(a, b *wall) bool {
	from, _ := a.Other(path.Outside)
	to, _ := b.Other(path.Outside)
	return from == to || a.crack() || b.crack()
}

// outOf are the steps from the outer side of a wall, seen over its area, to a point in the open.
func (s *scene) outOf(w *wall, to path.Point) []path.Step {
	steps, _ := s.ground.off.Get(offKey{w.number, to}, func() ([]path.Step, error) {
		face := s.faceTowards(w, to)
		x := ends{e: face, to: to, area: w.plane.area / pieces}
		return w.spread(face.At, to, s, s.outdoors(x), func(at path.Point) spectrum.Bands {
			piece, part := *face, x
			piece.At, part.e = at, &piece
			return s.outdoorsGain(part)
		}), nil
	})
	return steps
}
