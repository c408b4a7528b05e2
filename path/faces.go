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
	Kind          string // what such a wall is called, see Kinds
}

// Kinds of walls that have a usual build-up each.
const (
	HullSide  = "hull"
	Deck      = "deck"
	HouseSide = "house"
	Bulkhead  = "bulkhead" // of an engine's space, or in the hull towards what is not stated
	Joinery   = "joinery"
	Sole      = "sole" // between two spaces over each other
)

// Kinds of walls.
var Kinds = []string{HullSide, Deck, HouseSide, Bulkhead, Joinery, Sole}

// kind tells what a wall is by where it stands.
func (l *Layout) kind(g Gap) string {
	s, _ := l.space(g.Space)
	house := s.At[2] >= AfloatBelow
	switch {
	case g.Beyond != Outside && g.Side.Upright() && !l.holdsEngine(g.Space) && !l.holdsEngine(g.Beyond):
		return Joinery
	case g.Beyond != Outside && g.Side.Upright():
		return Bulkhead
	case g.Beyond == Outside && house && g.Side.Name != "floor":
		return HouseSide
	case g.Beyond != Outside && !g.Side.Upright():
		return Sole
	case !g.Side.Upright():
		return Deck
	case g.Side.axis == 1 || g.Side.Name == "aft" && s.At[0] < beside:
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

// skins are the faces of all spaces of which place and size are stated.
type skins struct {
	layout   *Layout
	faces    map[string][]face
	contacts []contact
}

// Gaps lists what of the skins of the spaces neither is stated as a partition nor lies under water. It holds for boxes
// by place and size: of a space without these nothing is known.
func (l *Layout) Gaps() (out []Gap) {
	k := newSkins(l)
	k.account()
	for i := range k.contacts {
		if c := &k.contacts[i]; c.rest > leastFace {
			out = append(out, Gap{Space: c.of, Beyond: c.on, Side: c.face.side, Area: c.rest, At: c.middle(), Part: true})
		}
	}
	for i := range l.Spaces {
		for _, f := range k.faces[l.Spaces[i].Name] {
			if g, ok := f.outer(l.Spaces[i].Name); ok {
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

func newSkins(l *Layout) *skins {
	k := &skins{layout: l, faces: map[string][]face{}}
	for i := range l.Spaces {
		if s := &l.Spaces[i]; s.Placed() {
			k.faces[s.Name] = s.skin()
		}
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

// join finds the contacts of two spaces: of two beside each other, or by a slip a little within each other, the faces along
// the axis in which they overlap least; of one within the other all faces of the inner.
func (k *skins) join(a, b *Space) {
	if !a.Placed() || !b.Placed() {
		return
	}
	switch {
	case b.within(a):
		k.nest(b, a)
	case a.within(b):
		k.nest(a, b)
	default:
		if axis, ok := apart(a, b); ok {
			k.touch(a, b, axis)
		}
	}
}

// within tells whether a space lies in another, all of it.
func (s *Space) within(o *Space) bool {
	for k := range s.At {
		if s.At[k] < o.At[k]-1e-9 || s.At[k]+s.Size[k] > o.At[k]+o.Size[k]+1e-9 {
			return false
		}
	}
	return true
}

// apart is the axis along which two spaces overlap least; ok is false where they don't lie against each other.
func apart(a, b *Space) (axis int, ok bool) {
	least, over := math.Inf(1), 0
	for k := range a.At {
		deep := math.Min(a.At[k]+a.Size[k], b.At[k]+b.Size[k]) - math.Max(a.At[k], b.At[k])
		if deep > 0 {
			over++
		}
		if deep < least {
			axis, least = k, deep
		}
	}
	return axis, least >= -beside && (over == 3 || over == 2 && least <= 0)
}

// touch joins the two faces of neighbours along an axis.
func (k *skins) touch(a, b *Space, axis int) {
	if a.At[axis]+a.Size[axis]/2 > b.At[axis]+b.Size[axis]/2 {
		a, b = b, a
	}
	f, g := &k.faces[a.Name][2*axis], &k.faces[b.Name][2*axis+1] // as Sides has them
	if p := f.before(b); p.area() > leastFace {
		k.contacts = append(k.contacts, contact{patch: p, of: a.Name, on: b.Name, face: f, back: g})
	}
}

// nest joins the faces of a space to the one that it stands in, but for those that lie in its skin.
func (k *skins) nest(in, out *Space) {
	for i := range k.faces[in.Name] {
		f := &k.faces[in.Name][i]
		x, far := f.side.axis, out.At[f.side.axis]
		if f.side.way > 0 {
			far += out.Size[x]
		}
		if math.Abs(far-f.lo[x]) > 1e-9 {
			k.contacts = append(k.contacts, contact{patch: f.patch, of: in.Name, on: out.Name, face: f})
		}
	}
}

// before is the part of a face that a space lies before.
func (f *face) before(t *Space) patch {
	p := f.patch
	for k := range p.lo {
		if k != f.side.axis {
			p.lo[k], p.hi[k] = math.Max(p.lo[k], t.At[k]), math.Min(p.hi[k], t.At[k]+t.Size[k])
		}
	}
	return p
}

// account takes the stated partitions off what they stand in, whatever their order in the file: those between spaces,
// those of a known face, then what is more than their face and those of which no face is known.
func (k *skins) account() {
	over := map[string]float64{}
	var placed, rest []*Partition
	for i := range k.layout.Partitions {
		p := &k.layout.Partitions[i]
		inner, out := p.other(Outside)
		switch faces := k.faces[inner]; {
		case !out:
			k.inner(p)
		case p.face(faces) != nil:
			placed = append(placed, p)
		default:
			rest = append(rest, p)
		}
	}
	for _, p := range placed {
		inner, _ := p.other(Outside)
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
		inner, _ := p.other(Outside)
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
		if far, ok := p.other(c.of); ok && far == c.on {
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
		}
	}
}

// towards is the face of a space where another lies: that of their largest contact, else the one that looks there.
func (k *skins) towards(space, other string, contacts []*contact) *face {
	for _, c := range contacts {
		if c.of == space {
			return c.face
		}
		return c.back
	}
	a, ok := k.layout.space(space)
	b, also := k.layout.space(other)
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

// spill takes an area off a space's walls, the one with the most left first: "trunk walls" are all four, a wall of no known
// place may be the roof as well.
func (k *skins) spill(space string, area float64, roof bool) {
	faces := k.faces[space]
	var all []*face
	for i := range faces {
		if d := faces[i].side; d.Upright() || roof && d.Name == "roof" {
			all = append(all, &faces[i])
		}
	}
	slices.SortStableFunc(all, func(a, b *face) int { return cmp.Compare(b.rest, a.rest) })
	for _, f := range all {
		area = f.take(area)
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

// Fits is the most that a partition can have of the space or face named, m2: twice the face it lies in, since a wall may
// be bent or the boat's not a box, or for walls all four of the space. ok is false where that is not known.
func (l *Layout) Fits(p *Partition) (face string, has, most float64, ok bool) {
	most = math.Inf(1)
	for i, name := range p.Between {
		s, found := l.space(name)
		if !found || !s.SizeStated {
			continue
		}
		if where, h, m := s.holds(p, p.Between[1-i] == Outside); m < most {
			face, has, most, ok = where+" of "+name, h, m, true
		}
	}
	return face, has, most, ok
}

func (s *Space) holds(p *Partition, out bool) (where string, has, most float64) {
	faces := s.skin()
	walls, all, largest := 0.0, 0.0, 0.0
	for i := range faces {
		a := faces[i].area()
		if all, largest = all+a, math.Max(largest, a); faces[i].side.Upright() {
			walls += a
		}
	}
	var at *face
	if p.Facing != "" || s.AtStated {
		at = p.face(faces)
	}
	switch {
	case !out:
		return "largest face", largest, 2 * largest
	case at == nil:
		return "whole skin", all, all
	case at.side.Upright():
		return at.side.Name + " face", at.area(), math.Max(2*at.area(), 1.1*walls)
	}
	return at.side.Name, at.area(), 2 * at.area()
}
