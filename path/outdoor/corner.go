package outdoor

import "math"

// corner is an edge that the vertical plane through source and receiver meets.
type corner struct {
	u    float64 // 0 at the source, 1 at the receiver
	p    Point
	name string
}

const grazing = 1e-6 // m and share of the way; less than this is touching, not crossing

// sight is the straight line from source to receiver with its plan length.
type sight struct {
	s, r     Point
	length   float64    // m in plan
	distance float64    // m
	ahead    [2]float64 // along it in plan
}

func newSight(s, r Point) sight {
	l := sight{s: s, r: r, length: math.Hypot(r[0]-s[0], r[1]-s[1]), distance: distance(s, r)}
	l.ahead = [2]float64{(r[0] - s[0]) / l.length, (r[1] - s[1]) / l.length}
	return l
}

// crossBox clips the plan line to the body: where it comes in and goes out, with the roof edges there.
func (l *sight) crossBox(b *Box) (in, out corner, ok bool) {
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
		lo, hi = math.Max(lo, math.Min(u1, u2)), math.Min(hi, math.Max(u1, u2))
	}
	in, out = corner{lo, l.above(lo, b.Max[2]), b.Name}, corner{hi, l.above(hi, b.Max[2]), b.Name}
	return in, out, math.Min(hi, 1)-math.Max(lo, 0) > grazing
}

// above is the point at share u of the way in plan and height z.
func (l *sight) above(u, z float64) Point {
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
func (b *Box) holds(p *Point) bool {
	for k := range p {
		if p[k] <= b.Min[k] || p[k] >= b.Max[k] {
			return false
		}
	}
	return true
}

// crossEdge is where the plan line meets a stated edge.
func (l *sight) crossEdge(e *Segment) (c corner, ok bool) {
	dx, dy := l.r[0]-l.s[0], l.r[1]-l.s[1]
	ex, ey := e.To[0]-e.From[0], e.To[1]-e.From[1]
	det := dx*ey - dy*ex
	if math.Abs(det) < 1e-12 {
		return c, false
	}
	fx, fy := e.From[0]-l.s[0], e.From[1]-l.s[1]
	u, v := (fx*ey-fy*ex)/det, (fx*dy-fy*dx)/det
	if u <= grazing || u >= 1-grazing || v < 0 || v > 1 {
		return c, false
	}
	return corner{u, along(e.From, e.To, v), e.Name}, true
}
