package scene

import (
	"sync"
	intern "unique"

	"hushwake/path"
	"hushwake/path/outdoor"
	"hushwake/source/spectrum"
)

// sightKey is two points among edges and bodies.
type sightKey struct {
	sights   intern.Handle[string] // edges and bodies
	own      [2]string             // names of bodies left out
	from, to path.Point
}

// sights keeps what lies between two points: the points of a sweep and the trials of a search stand in one geometry.
type sights[T any] struct {
	sync.Mutex
	known map[sightKey]T
}

// maxSights bounds the memory of a memo, some 400 bytes each; a boat of six spaces with all their walls asks for 10 000.
const maxSights = 1 << 16

var (
	shields     = sights[outdoor.Shield]{known: map[sightKey]outdoor.Shield{}}
	losses      = sights[spectrum.Bands]{known: map[sightKey]spectrum.Bands{}}
	reflections = sights[outdoor.Reflected]{known: map[sightKey]outdoor.Reflected{}}
)

// at gives what is known of a sight, or works it out.
func (m *sights[T]) at(k sightKey, work func() T) T {
	m.Lock()
	v, ok := m.known[k]
	m.Unlock()
	if ok {
		return v
	}
	v = work()
	m.Lock()
	defer m.Unlock()
	if len(m.known) >= maxSights {
		clear(m.known)
	}
	m.known[k] = v
	return v
}

// sight is the way between two points without the bodies that two walls belong to.
func (s *scene) sight(from, to path.Point, a, b *wall) sightKey {
	k := sightKey{sights: s.sights, from: from, to: to}
	for i, w := range [2]*wall{a, b} {
		if w != nil {
			k.own[i], _ = w.Other(path.Outside)
		}
	}
	return k
}

// shield is outdoor.Shielding, remembered, without the bodies that two walls belong to.
func (s *scene) shield(from, to path.Point, a, b *wall) outdoor.Shield {
	return shields.at(s.sight(from, to, a, b), func() outdoor.Shield {
		return outdoor.Shielding(from, to, s.edges, s.bodiesBut(a, b))
	})
}

// shieldLoss is the loss of it alone.
func (s *scene) shieldLoss(from, to path.Point, a, b *wall) spectrum.Bands {
	return losses.at(s.sight(from, to, a, b), func() spectrum.Bands {
		return outdoor.ShieldingLoss(from, to, s.edges, s.bodiesBut(a, b))
	})
}

// mirror is outdoor.Reflection, remembered in the same way.
func (s *scene) mirror(from, to path.Point, a, b *wall) outdoor.Reflected {
	return reflections.at(s.sight(from, to, a, b), func() outdoor.Reflected {
		return outdoor.Reflection(from, to, s.bodiesBut(a, b), s.edges...)
	})
}
