package path

import "math"

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
