package outdoor

import "math"

// corner is an edge that the vertical plane through source and receiver meets.
type corner struct {
	u    float64 // 0 at the source, 1 at the receiver
	p    Point
	edge Segment
}

const grazing = 1e-6 // m and share of the way; less than this is touching, not crossing

// sight is the straight line from source to receiver with its plan length.
type sight struct {
	s, r     Point
	length   float64 // m in plan
	distance float64 // m
}

func newSight(s, r Point) sight {
	return sight{s: s, r: r, length: math.Hypot(r[0]-s[0], r[1]-s[1]), distance: Distance(s, r)}
}

// crossBox clips the plan line to the body: where it comes in and goes out, with the roof edges there.
func (l sight) crossBox(b Box) (in, out corner, ok bool) {
	lo, hi := math.Inf(-1), math.Inf(1)
	for k := range 2 {
		d := l.r[k] - l.s[k]
		if math.Abs(d) < 1e-12 {
			if l.s[k] <= b.Min[k]+grazing || l.s[k] >= b.Max[k]-grazing {
				return in, out, false
			}
			continue
		}
		u1, u2 := (b.Min[k]-l.s[k])/d, (b.Max[k]-l.s[k])/d
		e1, e2 := b.roofEdge(k, b.Min[k]), b.roofEdge(k, b.Max[k])
		if u1 > u2 {
			u1, u2, e1, e2 = u2, u1, e2, e1
		}
		if u1 > lo {
			lo, in = u1, corner{u: u1, edge: e1}
		}
		if u2 < hi {
			hi, out = u2, corner{u: u2, edge: e2}
		}
	}
	in.p, out.p = l.above(in.u, b.Max[2]), l.above(out.u, b.Max[2])
	return in, out, math.Min(hi, 1)-math.Max(lo, 0) > grazing
}

// above is the point at share u of the way in plan and height z.
func (l sight) above(u, z float64) Point {
	p := along(l.s, l.r, u)
	p[2] = z
	return p
}

// roofEdge is the top edge of the body where axis k has the value at.
func (b Box) roofEdge(k int, at float64) Segment {
	from, to := Point{b.Min[0], b.Min[1], b.Max[2]}, b.Max
	from[k], to[k] = at, at
	return Segment{Name: b.Name, From: from, To: to}
}

// holds tells whether the point lies inside the body, not on its skin.
func (b Box) holds(p Point) bool {
	for k := range p {
		if p[k] <= b.Min[k]+grazing || p[k] >= b.Max[k]-grazing {
			return false
		}
	}
	return true
}

// touches tells whether the point lies on the body's skin or inside.
func (b Box) touches(p Point) bool {
	return b.over(p) && p[2] >= b.Min[2]-grazing && p[2] <= b.Max[2]+grazing
}

// over tells whether the point lies over or in the body in plan, its skin included.
func (b Box) over(p Point) bool {
	return p[0] >= b.Min[0]-grazing && p[0] <= b.Max[0]+grazing && p[1] >= b.Min[1]-grazing && p[1] <= b.Max[1]+grazing
}

// blocks tells whether the sight line runs through the inside of the body; corners are its roof edges
// between source and receiver, nil where the body is not in the way, the line passes under it, or a clear line begins or ends on its skin.
func (l sight) blocks(b Box) (corners []corner, blocked bool) {
	in, out, ok := l.crossBox(b)
	if !ok || b.holds(l.s) || b.holds(l.r) {
		return nil, false
	}
	z1, z2 := along(l.s, l.r, math.Max(in.u, 0))[2], along(l.s, l.r, math.Min(out.u, 1))[2]
	low, high := math.Min(z1, z2), math.Max(z1, z2)
	if high <= b.Min[2]+grazing {
		return nil, false
	}
	if blocked = low < b.Max[2]-grazing; !blocked && (b.touches(l.s) || b.touches(l.r)) {
		return nil, false
	}
	corners = make([]corner, 0, 2)
	for _, c := range [2]corner{in, out} {
		if c.u >= -grazing && c.u <= 1+grazing {
			corners = append(corners, c)
		}
	}
	return corners, blocked
}

// crossEdge is where the plan line meets a stated edge.
func (l sight) crossEdge(e Segment) (c corner, blocked, ok bool) {
	dx, dy := l.r[0]-l.s[0], l.r[1]-l.s[1]
	ex, ey := e.To[0]-e.From[0], e.To[1]-e.From[1]
	det := dx*ey - dy*ex
	if math.Abs(det) < 1e-12 {
		return c, false, false
	}
	fx, fy := e.From[0]-l.s[0], e.From[1]-l.s[1]
	u, v := (fx*ey-fy*ex)/det, (fx*dy-fy*dx)/det
	if u <= grazing || u >= 1-grazing || v < 0 || v > 1 {
		return c, false, false
	}
	c = corner{u: u, p: along(e.From, e.To, v), edge: e}
	return c, c.p[2] > along(l.s, l.r, u)[2], true
}
