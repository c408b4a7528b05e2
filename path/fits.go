package path

import "math"

// FaceFor is the most that a partition can have of the space or face named, m2: twice the face it lies in, since a wall may
// be bent or the boat's not a box, or for walls all four of the space. ok is false where that is not known.
func (l *Layout) FaceFor(p *Partition) (face string, has, most float64, ok bool) {
	most = math.Inf(1)
	if shared, faces := l.meet(p); shared > 0 {
		face, has, most, ok = "wall where "+p.Between[0]+" and "+p.Between[1]+" meet", shared, 2*faces, true
	}
	for i, name := range p.Between {
		s, found := l.Space(name)
		if !found || !s.SizeStated {
			continue
		}
		if where, h, m := s.holds(p, p.Between[1-i] == Outside); m < most {
			face, has, most, ok = where+" of "+name, h, m, true
		}
	}
	return face, has, most, ok
}

// meet is what two spaces by place and size share, and the smaller of the faces that meet there, m2: frames and what is not a box
// make a stated wall larger than what they share. Both are 0 where they do not meet.
func (l *Layout) meet(p *Partition) (shared, faces float64) {
	a, found := l.Space(p.Between[0])
	b, also := l.Space(p.Between[1])
	if !found || !also || a == b {
		return 0, 0
	}
	pair := &Layout{Spaces: []Space{*a, *b}}
	for _, c := range newSkins(pair).contacts {
		smaller := c.face.area()
		if c.back != nil {
			smaller = math.Min(smaller, c.back.area())
		}
		shared, faces = shared+c.area(), faces+smaller
	}
	return shared, faces
}

// Apart is how far two spaces by place and size lie from each other that a partition joins, m, where that is too far for a wall;
// else 0. Without the partition they would count as no neighbours.
func (l *Layout) Apart(p *Partition) (gap float64) {
	a, found := l.Space(p.Between[0])
	b, also := l.Space(p.Between[1])
	if !found || !also || !a.Placed() || !b.Placed() {
		return 0
	}
	for k := range a.At {
		gap = math.Max(gap, math.Max(a.At[k], b.At[k])-math.Min(a.At[k]+a.Size[k], b.At[k]+b.Size[k]))
	}
	if gap <= beside {
		return 0
	}
	return gap
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
