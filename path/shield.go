package path

import (
	"sync"

	"hushwake/path/outdoor"
)

// sightKey is two points among edges and bodies, these told apart by their text.
type sightKey struct {
	sights   string
	own      [2]string // names of bodies left out
	from, to Point
}

// shieldMemo keeps shielding: the points of a sweep and the trials of a search stand in one geometry.
var shieldMemo = struct {
	sync.Mutex
	known map[sightKey]outdoor.Shield
}{known: map[sightKey]outdoor.Shield{}}

// maxSights bounds the memory of the memo.
const maxSights = 4096

// shield is outdoor.Shielding, remembered, without the bodies that two walls belong to.
func (s *scene) shield(from, to Point, a, b *wall) outdoor.Shield {
	k := sightKey{sights: s.sights, from: from, to: to}
	for i, w := range [2]*wall{a, b} {
		if w != nil {
			k.own[i], _ = w.other(Outside)
		}
	}
	shieldMemo.Lock()
	sh, ok := shieldMemo.known[k]
	shieldMemo.Unlock()
	if ok {
		return sh
	}
	sh = outdoor.Shielding(from, to, s.edges, s.bodiesBut(a, b))
	shieldMemo.Lock()
	defer shieldMemo.Unlock()
	if len(shieldMemo.known) >= maxSights {
		clear(shieldMemo.known)
	}
	shieldMemo.known[k] = sh
	return sh
}
