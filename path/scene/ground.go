package scene

import (
	"reflect"
	"slices"
	"sync"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// ground keeps the ways through the open air between places that scenes have in common: they hang on bodies, edges and
// where walls stand, not on what these are made of. Safe for use by several goroutines.
type ground struct {
	sync.Mutex
	onto map[groundKey]func() [][]path.Step // by the number of the wall that they lead onto; nil = none
	off  map[offKey]func() []path.Step
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

func newGround() *ground {
	return &ground{onto: map[groundKey]func() [][]path.Step{}, off: map[offKey]func() []path.Step{}}
}

// groundOf gives that of an earlier scene of places alike, whose walls are made of something else.
func (n *Session) groundOf(k stageKey, l *path.Layout) *ground {
	n.Lock()
	var first func() (*scene, error)
	for _, h := range n.built {
		if f := n.first[stageKey{h.number, k.engines}]; f != nil && h.number < k.house && sameGround(h.of, l) {
			first = f
			break
		}
	}
	n.Unlock()
	if first != nil {
		if s, err := first(); err == nil {
			return s.ground
		}
	}
	return newGround()
}

// sameGround tells whether layouts of the same engines differ in nothing that sound meets on its way through the open air.
func sameGround(a, b *path.Layout) bool {
	return slices.EqualFunc(a.Partitions, b.Partitions, func(p, q path.Partition) bool {
		p.BuildUp, q.BuildUp, p.OpenArea, q.OpenArea = nil, nil, 0, 0
		return reflect.DeepEqual(p, q)
	}) && reflect.DeepEqual(a.Spaces, b.Spaces)
}

// kept gives what a map holds, or works it out, once, and keeps it.
func kept[K comparable, T any](g *ground, m map[K]func() T, most int, k K, work func() T) T {
	g.Lock()
	once, ok := m[k]
	if !ok {
		if len(m) >= most {
			clear(m)
		}
		once = sync.OnceValue(work)
		m[k] = once
	}
	g.Unlock()
	return once()
}

// ontoWalls are the ways from an emitter in the open onto the walls that look there.
func (s *scene) ontoWalls(e *emitter) [][]path.Step {
	k := groundKey{wall: -1}
	if e.wall != nil {
		k.wall = e.wall.number
	} else {
		k.trailKey = s.key(e, path.Full)
	}
	return kept(s.ground, s.ground.onto, mostOnto, k, func() [][]path.Step {
		all := make([][]path.Step, len(s.walls))
		for i := range s.walls {
			w := &s.walls[i]
			if _, ok := w.Other(path.Outside); !ok || e.wall != nil && s.apart(e.wall, w) {
				continue
			}
			from := e
			if e.wall != nil {
				from = s.faceTowards(e.wall, w.site(e.At, s).At)
			}
			all[i] = s.ontoWhole(from, w)
		}
		return all
	})
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
	return kept(s.ground, s.ground.off, mostOff, offKey{w.number, to}, func() []path.Step {
		face := s.faceTowards(w, to)
		x := ends{e: face, to: to, area: w.plane.area / pieces}
		return w.spread(face.At, to, s, s.outdoors(x), func(at path.Point) spectrum.Bands {
			piece, part := *face, x
			piece.At, part.e = at, &piece
			return s.outdoorsGain(part)
		})
	})
}
