package path

import "math"

// FaceFor is the most that a partition can have of the space or face named, m2: twice the face it lies in, since a wall may
// be bent or the boat's not a box, or for walls all four of the space. ok is false where that is not known.
func (l *Layout) FaceFor(p *Partition) (face string, has, most float64, ok bool) {
	most = math.Inf(1)
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
