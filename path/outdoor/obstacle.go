package outdoor

import "math"

// obstacle is a body or an edge as the sight line meets it.
type obstacle struct {
	name        string
	top         []corner // roof edges that the plan line crosses between the ends; the nearest corner where it passes aside
	crossed     bool     // the line runs through it, seen from above
	left, right float64  // ways round its port and starboard side less the straight way, m, negative to port of the line
	aside       float64  // m, the same round the corner that it passes closest, for one that is not crossed
	hangs       bool     // it stands over the water with a way beneath
	part        float64  // share in which it counts, 1 but for what lies beside
	beneath     float64  // way beneath it less the straight way, m, negative: the line passes beneath
}

// meetBox adds a body as seen from the sight line. A body whose foot is in the water has no way beneath.
func (v *view) meetBox(b *Box) {
	before := len(v.all)
	plan := [...]Point{{b.Min[0], b.Min[1], b.Max[2]}, {b.Min[0], b.Max[1], b.Max[2]}, {b.Max[0], b.Min[1], b.Max[2]}, b.Max}
	in, out, ok := v.crossBox(b)
	o := v.sides(b.Name, plan[:], ok)
	if ok {
		o.top = v.overRoof(b, &in, &out)
		v.beside(b.Name, plan[:], &in, &out)
	}
	v.all = append(v.all, o)
	for i := before; i < len(v.all) && (b.image || b.Min[2] > 0); i++ {
		o := &v.all[i]
		o.hangs, o.beneath = true, v.wayBeneath(b, &in, &out, o)
	}
}

// beside adds the corners to port and to starboard of a body over or under which one end lies, as far as the plan line
// through that end lies in the body behind it. So a body that an end comes over at a face along which the line
// runs changes from passed beside to crossed without a step (judgement).
func (v *view) beside(name string, plan []Point, in, out *corner) {
	part := (math.Max(0, -in.u) + math.Max(0, out.u-1)) / (out.u - in.u)
	if part == 0 {
		return
	}
	var room [4]Point
	for _, side := range [2]float64{-1, 1} {
		corners := room[:0]
		for _, p := range plan {
			if _, off := v.inPlan(p); off*side > 0 {
				corners = append(corners, p)
			}
		}
		o := v.sides(name, corners, false)
		if o.part = part; len(o.top) == 0 {
			continue
		}
		if side > 0 {
			o.left = o.right + part*(o.left-o.right)
		} else {
			o.right = o.left + part*(o.right-o.left)
		}
		v.all = append(v.all, o)
	}
}

// overRoof are the roof edges between the ends; an end beneath a hanging body has to get up to its roof first.
func (v *view) overRoof(b *Box, in, out *corner) (top []corner) {
	first := len(v.tops)
	for i, c := range [2]*corner{in, out} {
		end := [2]Point{v.s, v.r}[i]
		switch {
		case c.u >= -grazing && c.u <= 1+grazing:
			v.tops = append(v.tops, *c)
		case end[2] <= b.Min[2]:
			p := Point{end[0], end[1], b.Max[2]}
			v.tops = append(v.tops, corner{float64(i), p, b.Name})
		}
	}
	return v.tops[first:]
}

// wayBeneath is the way beneath the body less the straight way, negative where the line passes beneath.
func (v *view) wayBeneath(b *Box, in, out *corner, o *obstacle) float64 {
	at := [2]float64{math.Max(0, in.u), math.Min(1, out.u)}
	if !o.crossed && len(o.top) > 0 {
		at = [2]float64{o.top[0].u, o.top[0].u}
	}
	for i, c := range [2]*corner{in, out} { // an end over the body: beneath it and up beyond
		if end := [2]Point{v.s, v.r}[i]; o.crossed && end[2] > b.Min[2] && (c.u < 0 || c.u > 1) {
			p := v.above(c.u, b.Min[2])
			return math.Max(0, distance(v.s, p)+distance(p, v.r)-v.distance)
		}
	}
	return v.under(v.above(at[0], b.Min[2]), v.above(at[1], b.Min[2]), at)
}

// under is the shortest way beneath two points less the straight way; less than zero where that is clear of both.
func (v *view) under(first, last Point, at [2]float64) float64 {
	points, low := [2]Point{first, last}, [...][2]float64{{at[0], -first[2]}, {at[1], -last[2]}}
	way, p := 0.0, v.s
	var room hull
	hull := upperHull(&room, low[:], [2]float64{0, -v.s[2]}, [2]float64{1, -v.r[2]})
	for _, h := range hull {
		way, p = way+distance(p, points[h]), points[h]
	}
	if len(hull) > 0 {
		return math.Max(0, way+distance(p, v.r)-v.distance)
	}
	return math.Max(v.clearance(&corner{u: at[0], p: first}), v.clearance(&corner{u: at[1], p: last}))
}

// meetEdge sees a stated edge, whose body hangs below it, from the sight line.
func (v *view) meetEdge(e *Segment) {
	c, ok := v.crossEdge(e)
	o := v.sides(e.Name, []Point{e.From, e.To}, ok)
	if ok {
		o.top = v.keep(c)
	}
	if o.hangs = e.image; o.hangs && len(o.top) > 0 {
		p, u := o.top[0].p, o.top[0].u
		p[2] = -p[2]
		o.beneath = v.under(p, p, [2]float64{u, u})
	}
	v.all = append(v.all, o)
}

// keep is a place for the one corner of an obstacle.
func (v *view) keep(c corner) []corner {
	v.tops = append(v.tops, c)
	return v.tops[len(v.tops)-1:]
}

// blocks tells whether the straight line runs through the obstacle.
func (o *obstacle) blocks(over Screen) bool {
	return o.crossed && over.Z > 0 && !(o.hangs && o.beneath < 0)
}

// sides finds the ways round both sides of what has these corners in plan, and the corner that the line
// passes closest where it does not cross, on the line; of two as close, the middle.
func (v *view) sides(name string, plan []Point, crossed bool) obstacle {
	var seen [4][2]float64
	for i, p := range plan {
		seen[i][0], seen[i][1] = v.inPlan(p)
	}
	at := seen[:len(plan)]
	o := obstacle{name: name, part: 1, crossed: crossed, left: -v.round(at, -1), right: v.round(at, 1)}
	if crossed {
		return o
	}
	o.aside = math.Inf(1)
	side, sum, u, height := 0.0, 0.0, 0.0, 0.0
	for i, p := range plan {
		t, off := at[i][0], at[i][1]
		if t <= grazing || t >= v.length-grazing { // beside or behind an end, or the corner that it lies on
			continue
		}
		z := askew(v.detour(math.Hypot(t, off)+math.Hypot(v.length-t, off)), off, math.Min(t, v.length-t))
		if z < o.aside {
			o.aside, side = z, off
		}
		w := 1 / math.Max(z*z, 1e-18)
		sum, u, height = sum+w, u+w*t/v.length, height+w*p[2]
	}
	if sum > 0 {
		o.top = v.keep(corner{u / sum, v.above(u/sum, height/sum), name})
	}
	if side >= 0 {
		o.left = math.Min(o.aside, o.right)
		return o
	}
	o.right = -math.Min(o.aside, -o.left)
	return o
}

// askew widens the clearance z of an edge that lies off the line by a good part of its way along it from the nearer
// end, z (1 + (off/along)^2): an edge right beside or under an end is not in the way (judgement).
func askew(z, off, along float64) float64 { return z * (1 + off*off/(along*along)) }

// inPlan is how far along the line a point lies, and how far off it to starboard, m.
func (l *sight) inPlan(p Point) (t, off float64) {
	x, y := p[0]-l.s[0], p[1]-l.s[1]
	return l.ahead[0]*x + l.ahead[1]*y, l.ahead[0]*y - l.ahead[1]*x
}

// detour is a way of that length in plan less the straight way, m.
func (l *sight) detour(plan float64) float64 {
	return math.Max(0, math.Hypot(plan, l.r[2]-l.s[2])-l.distance)
}

// round is the way round the corners, as seen in plan, on one side of the line less the straight way, m. Corners behind the
// source or the receiver count as beside it, which shortens the way and so errs to the loud side.
func (l *sight) round(plan [][2]float64, side float64) float64 {
	var kept [4][2]float64
	var room hull
	points := kept[:0]
	for _, p := range plan {
		if off := side * p[1]; off > 0 {
			points = append(points, [2]float64{max(0, min(l.length, p[0])), off})
		}
	}
	if len(points) == 0 {
		return l.detour(l.length)
	}
	way, last := 0.0, [2]float64{}
	for _, h := range upperHull(&room, points, [2]float64{0, 0}, [2]float64{l.length, 0}) {
		way += math.Hypot(points[h][0]-last[0], points[h][1]-last[1])
		last = points[h]
	}
	return l.detour(way + math.Hypot(l.length-last[0], last[1]))
}
