package boatfile

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
)

// The smallest usual spaces, m: what stands in for a size that nobody measured, since sound is loudest in a small one (judgement).
var (
	leastEngineSpace = [3]float64{1.2, 0.8, 0.9}
	leastRoom        = [3]float64{2, 1, 1.2} // a berth
	leastSpace       = [3]float64{0.4, 0.4, 1}
	largestSpace     = [3]float64{20, 8, 5} // m, of a hold or a hall right across, taken lying as it does
	largestWall      = 25.0                 // m2, as a bulkhead right across a beam of 8 m, 3 m high
	roundBox         = 0.2                  // more than the box that stands in it
)

// sized gives every space without a size the smallest usual one that holds what the file puts into it.
func (r *reader) sized(b *path.Boat, l *path.Layout) {
	for i := range l.Partitions {
		r.tooLarge(l, &l.Partitions[i])
	}
	for i := range l.Spaces {
		s := &l.Spaces[i]
		if s.SizeStated {
			r.vast(s)
			continue
		}
		s.Size = leastFor(b, l, s)
		skin, walls := 2*(s.Size[0]*s.Size[1]+s.Size[2]*(s.Size[0]+s.Size[1])), statedWalls(l, s.Name)
		for k := range s.Size {
			s.Size[k] *= math.Max(1, math.Sqrt(walls/skin))
		}
		m := func(k int) string { return quantity.Said(s.Size[k], quantity.Length) }
		r.AssumeOf("spaces."+s.Name, "size", fmt.Sprintf("%s by %s by %s", m(0), m(1), m(2)),
			"judgement: the smallest usual one that holds what is stated, since sound is loudest there; an ordinary one of fifteen times the volume has 8 dB less at the edge of the band", 6)
	}
}

// vast warns of a space larger than nearly any in a boat.
func (r *reader) vast(s *path.Space) {
	for k, most := range largestSpace {
		if s.Size[k] > most {
			r.Warn(nil, "spaces.%s: %s is larger than nearly any space in a boat (%s, judgement), and a large one is quiet: is a unit wrong?", s.Name, sizeText(s.Size), sizeText(largestSpace))
			return
		}
	}
}

// tooLarge takes a wall larger than nearly any for one of no stated area, where no size of its spaces tells better: spaces that
// hold it would be as large, and quieter.
func (r *reader) tooLarge(l *path.Layout, p *path.Partition) {
	for _, name := range p.Between {
		if s := findSpace(l.Spaces, name); s != nil && s.SizeStated {
			return
		}
	}
	if p.Area > largestWall {
		r.Warn(nil, "partitions.%s: a wall of %s is larger than nearly any in a boat (%s, judgement), and no size of its spaces is stated: its area counts as not stated; check it, or state a size",
			p.Name, quantity.Said(p.Area, quantity.Area), quantity.Said(largestWall, quantity.Area))
		p.Area = 0
	}
}

// leastFor is the smallest usual size of a space by what stands or sits in it.
func leastFor(b *path.Boat, l *path.Layout, s *path.Space) [3]float64 {
	size := leastSpace
	larger := func(by [3]float64) {
		for k := range size {
			size[k] = math.Max(size[k], by[k])
		}
	}
	for _, ear := range b.Listeners {
		if ear.In == s.Name {
			larger(leastRoom)
		}
	}
	for _, e := range l.Engines {
		if e.In != s.Name && (e.In != "" || DefaultLining(s.Name) != "bare steel") {
			continue
		}
		box := leastEngineSpace
		for _, x := range l.Enclosures {
			if x.Name == e.Enclosure {
				box = [3]float64{x.Size[0] + roundBox, x.Size[1] + roundBox, x.Size[2] + roundBox}
			}
		}
		larger(box)
	}
	return size
}

// statedWalls is the area of a space's partitions, m2.
func statedWalls(l *path.Layout, space string) (area float64) {
	for _, p := range l.Partitions {
		if p.Between[0] == space || p.Between[1] == space {
			area += p.Area
		}
	}
	return area
}
