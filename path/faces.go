package path

import (
	"cmp"
	"math"
	"slices"
)

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
