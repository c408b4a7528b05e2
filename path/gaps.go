package path

import (
	"math"
)

// Limits of what a tape says (judgement).
const (
	beside    = 0.5  // m, how far apart two spaces may stand and still share a wall: frames, beams, linings
	leastFace = 0.05 // m2, what is less is a slip of the tape
	trunkWide = 0.8  // m, the longer side of a trunk for pipes over the deck, at most
	// afloatBelow is how high over the water the floor of a space in the hull may lie, m.
	afloatBelow = 0.5
)

// Gap is a part of a space's skin of which the file says nothing beyond what its face is made of.
type Gap struct {
	Space, Beyond string // Beyond is a space, or Outside
	Side          Side   // of Space
	Area          float64
	At            Point  // its middle
	Part          bool   // its middle is not that of the whole face
	Loose         bool   // place or size of the space are not stated: where it lies and what lies beyond is taken
	Kind          string // what such a wall is called, see Kinds
}

// Kinds of walls that have a usual build-up each.
const (
	HullSide  = "hull"
	Deck      = "deck"
	HouseSide = "house"
	Bulkhead  = "bulkhead" // of an engine's space, or in the hull towards what is not stated
	joinery   = "joinery"
	Sole      = "sole"  // between two spaces over each other
	Trunk     = "trunk" // towards the open, of a space too narrow to stand in
)

// Crack is the kind of the ways beside walls of which nobody says what stands open.
const Crack = "crack"

// Kinds of walls.
var Kinds = []string{HullSide, Deck, HouseSide, Bulkhead, joinery, Sole, Trunk}

// kind tells what a wall is by where it stands.
func (l *Layout) kind(g Gap) string {
	s, _ := l.Space(g.Space)
	house := s.At[2] >= afloatBelow
	switch {
	case g.Beyond == Outside && house && s.Placed() && math.Max(s.Size[0], s.Size[1]) < trunkWide && !l.HoldsEngine(g.Space):
		return Trunk
	case g.Beyond == Outside && !s.AtStated:
		return HouseSide // the lightest
	case g.Beyond != Outside && g.Side.Upright() && !l.HoldsEngine(g.Space) && !l.HoldsEngine(g.Beyond):
		return joinery
	case g.Beyond != Outside && g.Side.Upright():
		return Bulkhead
	case g.Beyond == Outside && house && g.Side.Name != "floor":
		return HouseSide
	case g.Beyond != Outside && !g.Side.Upright():
		return Sole
	case !g.Side.Upright():
		return Deck
	case g.Side.axis == 1 && g.At[1]*g.Side.way > 0 || // what looks across the centreline is no side of the boat
		g.Side.Name == "aft" && s.At[0] < beside:
		return HullSide
	}
	return Bulkhead
}

// Gaps lists what of the skins of the spaces neither is stated as a partition nor lies under water. It holds for boxes
// by place and size: a space that lacks one of them is taken as in the open and next to every other.
func (l *Layout) Gaps() (out []Gap) {
	k := newSkins(l)
	k.account()
	for i := range k.contacts {
		if c := &k.contacts[i]; c.rest > leastFace {
			out = append(out, Gap{Space: c.of, Beyond: c.on, Side: c.face.side, Area: c.rest, At: c.middle(), Part: true})
		}
	}
	for i := range l.Spaces {
		s := &l.Spaces[i]
		if !s.Placed() {
			out = append(out, k.loose(s)...)
			continue
		}
		for _, f := range k.faces[s.Name] {
			if g, ok := f.outer(s.Name); ok {
				out = append(out, g)
			}
		}
	}
	for i := range out {
		out[i].Kind = l.kind(out[i])
	}
	return out
}

// outer is what of a face looks out: the part above the water, of a floor none where it is the boat's bottom.
func (f *face) outer(space string) (Gap, bool) {
	dry := f.dry()
	if f.side.axis == 2 {
		dry = f.patch
	}
	share := dry.area() / f.area()
	if f.side.Name == "floor" && f.lo[2] < afloatBelow || !(f.rest*share > leastFace) {
		return Gap{}, false
	}
	return Gap{Space: space, Beyond: Outside, Side: f.side, Area: f.rest * share, At: dry.middle(), Part: share < 1}, true
}

// loose are the gaps of a space of no known place or size: all that is left of its walls and roof.
func (k *skins) loose(s *Space) (out []Gap) {
	for _, f := range k.faces[s.Name] {
		if f.side.Name != "floor" && f.rest > leastFace {
			out = append(out, Gap{Space: s.Name, Beyond: Outside, Side: f.side, Area: f.rest, At: f.middle(), Loose: true})
		}
	}
	wall := k.widest(s.Name, true)
	for i := range k.layout.Spaces {
		t := &k.layout.Spaces[i]
		if t == s || !t.Placed() && t.Name < s.Name {
			continue // of two such spaces the one that comes first has the wall
		}
		if area := k.shared(s.Name, t.Name) - k.layout.SharedArea(s.Name, t.Name); area > leastFace {
			out = append(out, Gap{Space: s.Name, Beyond: t.Name, Side: wall.side, Area: area, At: wall.middle(), Loose: true})
		}
	}
	return out
}

// shared is what two spaces of no known place may share, m2: the smaller one's wall, or deck where their partitions are larger than that.
func (k *skins) shared(a, b string) float64 {
	wall := math.Min(k.widest(a, true).area(), k.widest(b, true).area())
	if k.layout.SharedArea(a, b) <= wall {
		return wall
	}
	return math.Min(k.widest(a, false).area(), k.widest(b, false).area())
}

// widest is the largest wall of a space, or its largest deck.
func (k *skins) widest(space string, upright bool) *face {
	var best *face
	for i := range k.faces[space] {
		if f := &k.faces[space][i]; f.side.Upright() == upright && (best == nil || f.area() > best.area()) {
			best = f
		}
	}
	return best
}

func newSkins(l *Layout) *skins {
	k := &skins{layout: l, faces: map[string][]face{}}
	for i := range l.Spaces {
		k.faces[l.Spaces[i].Name] = l.Spaces[i].skin()
	}
	for i := range l.Spaces {
		for j := i + 1; j < len(l.Spaces); j++ {
			k.join(&l.Spaces[i], &l.Spaces[j])
		}
	}
	for i := range k.contacts {
		c := &k.contacts[i]
		c.rest = c.area()
		c.face.take(c.rest)
		if c.back != nil {
			c.back.take(c.rest)
		}
	}
	return k
}
