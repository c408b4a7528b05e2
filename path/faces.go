package path

import (
	"cmp"
	"math"
	"slices"
)

// Side is one of the six faces of a space, by the axis it stands across and the way it looks.
type Side struct {
	Name, Facing string
	axis         int
	way          float64
}

// Sides are the faces of a space.
var Sides = []Side{{"forward", "forward", 0, 1}, {"aft", "aft", 0, -1}, {"starboard", "starboard", 1, 1}, {"port", "port", 1, -1}, {"roof", "up", 2, 1}, {"floor", "down", 2, -1}}

// Opposite is the side across the space.
func (d Side) Opposite() Side {
	for _, o := range Sides {
		if o.axis == d.axis && o.way != d.way {
			return o
		}
	}
	return d
}

// Upright tells a wall from a roof or floor.
func (d Side) Upright() bool { return d.axis != 2 }

// Limits of what a tape says (judgement).
const (
	beside    = 0.5  // m, how far apart two spaces may stand and still share a wall: frames, beams, linings
	leastFace = 0.05 // m2, what is less is a slip of the tape
	trunkWide = 0.8  // m, the longer side of a trunk for pipes over the deck, at most
	// AfloatBelow is how high over the water the floor of a space in the hull may lie, m.
	AfloatBelow = 0.5
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
	Joinery   = "joinery"
	Sole      = "sole"  // between two spaces over each other
	Trunk     = "trunk" // towards the open, of a space too narrow to stand in
)

// Crack is the kind of the ways beside walls of which nobody says what stands open.
const Crack = "crack"

// Kinds of walls.
var Kinds = []string{HullSide, Deck, HouseSide, Bulkhead, Joinery, Sole, Trunk}

// kind tells what a wall is by where it stands.
func (l *Layout) kind(g Gap) string {
	s, _ := l.Space(g.Space)
	house := s.At[2] >= AfloatBelow
	switch {
	case g.Beyond == Outside && house && s.Placed() && math.Max(s.Size[0], s.Size[1]) < trunkWide && !l.HoldsEngine(g.Space):
		return Trunk
	case g.Beyond == Outside && !s.AtStated:
		return HouseSide // the lightest
	case g.Beyond != Outside && g.Side.Upright() && !l.HoldsEngine(g.Space) && !l.HoldsEngine(g.Beyond):
		return Joinery
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

// patch is an upright or level rectangle; lo and hi are equal along one axis.
type patch struct{ lo, hi Point }

func (p patch) area() float64 {
	a, sizes := 1.0, 0
	for k := range p.lo {
		if d := p.hi[k] - p.lo[k]; d > 0 {
			a, sizes = a*d, sizes+1
		}
	}
	if sizes < 2 {
		return 0
	}
	return a
}

func (p patch) middle() (m Point) {
	for k := range m {
		m[k] = (p.lo[k] + p.hi[k]) / 2
	}
	return m
}

// dry is what of it lies above the water.
func (p patch) dry() patch {
	p.lo[2], p.hi[2] = math.Max(p.lo[2], 0), math.Max(p.hi[2], 0)
	return p
}

// face is one side of a space with what of it is not accounted for yet, m2.
type face struct {
	patch
	side Side
	rest float64
}

// take takes an area off a face, as far as it is there, and gives what is left of the area.
func (f *face) take(area float64) (over float64) {
	part := math.Min(f.rest, area)
	f.rest -= part
	return area - part
}

// contact is where the skins of two spaces lie against each other.
type contact struct {
	patch
	of, on string
	face   *face // of the first
	back   *face // of the second; nil where the first stands within it
	rest   float64
}

// skins are the faces of all spaces; contacts those of which place and size are stated.
type skins struct {
	layout   *Layout
	faces    map[string][]face
	contacts []contact
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
	if f.side.Name == "floor" && f.lo[2] < AfloatBelow || !(f.rest*share > leastFace) {
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

// SharedArea is the area of the partitions between two spaces, m2.
func (l *Layout) SharedArea(a, b string) (area float64) {
	for i := range l.Partitions {
		if far, ok := l.Partitions[i].Other(a); ok && far == b {
			area += l.Partitions[i].Area
		}
	}
	return area
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

// Placed tells whether both place and size of a space are stated.
func (s *Space) Placed() bool { return s.AtStated && s.SizeStated }

func (s *Space) skin() []face {
	out := make([]face, len(Sides))
	for i, d := range Sides {
		f := face{side: d, patch: patch{s.At, s.At}}
		for k := range f.hi {
			f.hi[k] += s.Size[k]
		}
		if d.way > 0 {
			f.lo[d.axis] = f.hi[d.axis]
		} else {
			f.hi[d.axis] = f.lo[d.axis]
		}
		f.rest = f.area()
		out[i] = f
	}
	return out
}

// account takes the stated partitions off what they stand in, whatever their order in the file: those between spaces,
// those of a known face, then what is more than their face and those of which no face is known.
func (k *skins) account() {
	over := map[string]float64{}
	var placed, rest []*Partition
	for i := range k.layout.Partitions {
		p := &k.layout.Partitions[i]
		inner, out := p.Other(Outside)
		s, _ := k.layout.Space(inner)
		switch faces := k.faces[inner]; {
		case !out:
			k.inner(p)
		case (p.Facing != "" || s != nil && s.Placed()) && p.face(faces) != nil:
			placed = append(placed, p)
		default:
			rest = append(rest, p)
		}
	}
	for _, p := range placed {
		inner, _ := p.Other(Outside)
		if f := p.face(k.faces[inner]); f.side.Upright() {
			over[inner] += f.take(p.Area)
		} else {
			f.take(p.Area)
		}
	}
	for inner, area := range over {
		k.spill(inner, area, false)
	}
	for _, p := range rest {
		inner, _ := p.Other(Outside)
		k.spill(inner, p.Area, true)
	}
}

// inner takes a partition off the contacts of its two spaces, the largest first, and what it is more than these off
// their faces there.
func (k *skins) inner(p *Partition) {
	area := p.Area
	var all []*contact
	for i := range k.contacts {
		c := &k.contacts[i]
		if far, ok := p.Other(c.of); ok && far == c.on {
			all = append(all, c)
		}
	}
	slices.SortStableFunc(all, func(a, b *contact) int { return cmp.Compare(b.area(), a.area()) })
	for _, c := range all {
		part := math.Min(area, c.rest)
		c.rest, area = c.rest-part, area-part
	}
	for i, name := range p.Between {
		if f := k.towards(name, p.Between[1-i], all); f != nil {
			f.take(area)
		} else if s, ok := k.layout.Space(name); ok && !s.Placed() {
			k.spill(name, area, true)
		}
	}
}

// towards is the face of a space where another lies: that of their largest contact, else the one that looks there.
func (k *skins) towards(space, other string, contacts []*contact) *face {
	if len(contacts) > 0 {
		if contacts[0].of == space {
			return contacts[0].face
		}
		return contacts[0].back
	}
	a, ok := k.layout.Space(space)
	b, also := k.layout.Space(other)
	if !ok || !also || !a.Placed() || !b.Placed() {
		return nil
	}
	from, to, best, most := a.centre(), b.centre(), 0, math.Inf(-1)
	for i, d := range Sides {
		if apart := (to[d.axis]-from[d.axis])*d.way - (a.Size[d.axis]+b.Size[d.axis])/2; apart > most {
			best, most = i, apart
		}
	}
	return &k.faces[space][best]
}

// spill takes an area off a space's walls, off each its share of what is left: "trunk walls" are all four, a wall of no known
// place may be the roof as well.
func (k *skins) spill(space string, area float64, roof bool) {
	faces := k.faces[space]
	var all []*face
	left := 0.0
	for i := range faces {
		if d := faces[i].side; d.Upright() || roof && d.Name == "roof" {
			all, left = append(all, &faces[i]), left+faces[i].rest
		}
	}
	if left <= 0 {
		return
	}
	for _, f := range all {
		f.take(area * f.rest / left)
	}
}

// face is the one of a space's that a partition to the open lies in: by its facing, else by its place; nil = not known.
func (p *Partition) face(faces []face) *face {
	best, least := (*face)(nil), math.Inf(1)
	for i := range faces {
		f := &faces[i]
		if p.Facing != "" && p.Facing == f.side.Facing {
			return f
		}
		if d := math.Abs(p.At[f.side.axis] - f.lo[f.side.axis]); p.Facing == "" && p.AtStated && d < least {
			best, least = f, d
		}
	}
	return best
}
