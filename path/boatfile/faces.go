package boatfile

import (
	"fmt"
	"slices"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/usual"
)

// closeSpaces gives every part of a space's skin that no partition speaks of a wall: as its face says, else the usual
// one of such a boat, listed with its area and its price.
func (r *reader) closeSpaces(b *path.Boat, l *path.Layout) {
	gaps := l.Gaps()
	used := map[string]bool{}
	for i := range gaps {
		g := &gaps[i]
		f, of, ok := faceOf(l, g)
		if used[of] = true; ok {
			l.Partitions = append(l.Partitions, r.statedFace(l, of, g, f))
			g.Area = 0
		}
	}
	for i := range gaps {
		if gaps[i].Area > 0 {
			l.Partitions = append(l.Partitions, r.usualFace(b, l, &gaps[i]))
		}
	}
	l.Partitions = append(l.Partitions, usual.Cracks(l.Partitions)...)
	r.unusedFaces(l, used)
}

// faceOf is what the file says of the face a gap lies in, by either of the spaces that meet there; nothing where it is not known
// which faces these are.
func faceOf(l *path.Layout, g *path.Gap) (f path.Face, of string, ok bool) {
	if of = "spaces." + g.Space + ".faces." + g.Side.Name; g.Loose && g.Beyond != path.Outside {
		return f, of, false
	}
	if s := findSpace(l.Spaces, g.Space); s != nil {
		if f, ok = s.Faces[g.Side.Name]; ok {
			return f, of, true
		}
	}
	if s := findSpace(l.Spaces, g.Beyond); s != nil {
		back := g.Side.Opposite().Name
		if f, ok = s.Faces[back]; ok {
			return f, "spaces." + g.Beyond + ".faces." + back, true
		}
	}
	return f, of, false
}

// wallOf is the partition that fills a gap. In a whole face it stands where others of that face do that state no place: they
// are one wall to the sound before them.
func wallOf(g *path.Gap) path.Partition {
	p := path.Partition{Name: g.Space + " " + g.Side.Name, Between: [2]string{g.Space, g.Beyond}, Area: g.Area, At: g.At, AtStated: g.Part, Facing: g.Side.Facing}
	if g.Beyond != path.Outside {
		p.Name = p.Name + " to " + g.Beyond
	}
	if g.Beyond != path.Outside || g.Loose {
		p.Facing = ""
	}
	return p
}

func (r *reader) statedFace(l *path.Layout, of string, g *path.Gap, f path.Face) path.Partition {
	p := wallOf(g)
	p.Name += " face" // a partition may be called as the side is
	if p.BuildUp = f.BuildUp; f.Open {
		p.BuildUp, p.OpenArea = usual.Holed, p.Area
		return p
	}
	if p.Cracks = cracksIn(l, g); p.Cracks {
		r.cracked(of)
	}
	return p
}

// cracksIn tells whether what fills a gap may have cracks: not in a hull, which floats, nor where what stands open of its face is
// stated with another part of it (so chosen after the record's gate failed without: openings of one face would count
// twice). A stated face has them no more than a forgotten one, which would be the quieter.
func cracksIn(l *path.Layout, g *path.Gap) bool {
	return g.Kind != path.HullSide && !slices.ContainsFunc(l.Partitions, func(p path.Partition) bool {
		return p.Usual == nil && !p.Cracks && usual.Fills(&p, g) && (p.Facing != "" || g.Beyond != path.Outside)
	})
}

// usualFace is the wall of a face that nobody stated.
func (r *reader) usualFace(b *path.Boat, l *path.Layout, g *path.Gap) path.Partition {
	w, hull := usual.For(b, g.Kind)
	p, usual := wallOf(g), w.Usual
	p.Name += ", not stated"
	p.BuildUp, p.Usual, p.Cracks = w.BuildUp, &usual, cracksIn(l, g)
	r.Assume("spaces."+g.Space+".faces."+g.Side.Name, fmt.Sprintf("%s to %s, not stated: %s (%s, %s)", quantity.Said(g.Area, quantity.Area), g.Beyond, w.Text, g.Kind, hull),
		usual.Mark+": "+usual.Source+"; write none if it is open", usual.SD)
	return p
}

// unusedFaces says where a stated face has nothing left that it could be.
func (r *reader) unusedFaces(l *path.Layout, used map[string]bool) {
	for i := range l.Spaces {
		s := &l.Spaces[i]
		for _, d := range path.Sides {
			_, stated := s.Faces[d.Name]
			if of := "spaces." + s.Name + ".faces." + d.Name; stated && s.Placed() && !used[of] {
				r.Assume(of, "counts for nothing: partitions, other spaces or water fill that face", "by at and size", 0)
			}
		}
	}
}

// overstated refuses partitions that are larger than the face or space they stand in.
func (r *reader) overstated(at *decode.Node, l *path.Layout, p *path.Partition) {
	face, has, most, ok := l.FaceFor(p)
	switch {
	case !ok || p.Area <= 0:
	case p.Area > most:
		r.Wrong(at, fmt.Sprintf("give the area of this wall alone, %s at most", quantity.Format(has, quantity.Area, quantity.Metric)),
			"partitions.%s: %s do not fit: the %s has %s", p.Name, quantity.Format(p.Area, quantity.Area, quantity.Metric), face, quantity.Format(has, quantity.Area, quantity.Metric))
	case p.Area > 1.1*has && p.Between[0] != path.Outside && p.Between[1] != path.Outside:
		r.Assume("partitions."+p.Name+" area", fmt.Sprintf("%s, but the %s has %s by at and size", quantity.Said(p.Area, quantity.Area), face, quantity.Said(has, quantity.Area)), "as stated, which is the louder", 0)
	case p.Area > 1.1*has:
		r.Assume("partitions."+p.Name+" area", fmt.Sprintf("%s, of which the %s has %s: the rest is taken as of the walls beside it", quantity.Said(p.Area, quantity.Area), face, quantity.Said(has, quantity.Area)), "as stated", 0)
	}
}

// beyondUsual lists the partitions that let through more than what would be taken in their place.
func (r *reader) beyondUsual(b *path.Boat, l *path.Layout) {
	for i := range l.Partitions {
		if text, why := usual.Beyond(b, l, i); text != "" {
			r.Assume("partitions."+l.Partitions[i].Name+" lets through", text, why, 0)
		}
	}
}
