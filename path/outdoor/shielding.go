package outdoor

import (
	"math"
	"slices"
	"sync"

	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// Shield is what stands between an outlet and a receiver.
type Shield struct {
	Loss    spectrum.Bands // dB, zero where nothing shields
	Blocked bool           // the line of sight is cut
	Over    Screen         // the way over the top of what the sight line crosses in plan
	By      string         // name of what shields most; "" = nothing
	Text    string
	published.Cited
}

// Shielding is the loss by edges and bodies between source and receiver. Over the top it is D_z of
// ISO 9613-2. What passes beside or beneath is shared out over the way between:
//
//	T    = sum over strips of (their share) T_over(what stands in the strip), D = -10 lg T
//	beyond an edge lies the share M(y) = 1/(3 + y - exp(-y)), M(-y) = 1 - M(y), y = (C2/lambda) z
//
// z is the way round the edge less the straight way, so that M is 1/2 at the edge and D_z's 1/(3 + y) deep
// behind it; a body narrower than the waves hides little by itself. A line clear of everything by y < -2, as in
// the standard, loses nothing. T is continuous in both points and the same both ways. A point inside a body
// stands for the nearest point of its skin; half a metre inside, the body no longer counts (a file that draws it so
// contradicts itself). Close behind an edge the shadow is deeper than farther off, so that
// walking out of it may raise the level. Source: ISO 9613-2:1996, 7.4; the sharing is our judgement.
func Shielding(source, receiver Point, edges []Segment, boxes []Box) Shield {
	s := Shield{Text: "line of sight clear", Cited: screenCited}
	v := look(source, receiver, edges, boxes)
	defer v.done()
	s.Loss = v.between(source, receiver, edges, boxes)
	s.Over = v.over(v.crossed())
	s.Over.spans = slices.Clone(s.Over.spans)
	if s.Loss == (spectrum.Bands{}) {
		return s
	}
	for i := range v.all {
		o := &v.all[i]
		s.Blocked = s.Blocked || o.blocks(v.alone(o))
	}
	if s.By = s.Over.Over; s.Over.Edges == 0 {
		s.By = v.nearest()
		s.Text = "close past " + s.By
		return s
	}
	s.Text = said.Textf("over %s: %s, path difference {%.3f m}", s.By, edgesInWords(s.Over.Edges), s.Over.Z)
	return s
}

// ShieldingLoss is the loss of Shielding alone, dB.
func ShieldingLoss(source, receiver Point, edges []Segment, boxes []Box) spectrum.Bands {
	v := look(source, receiver, edges, boxes)
	defer v.done()
	return v.between(source, receiver, edges, boxes)
}

// between is the loss between ends that may lie inside bodies, dB.
func (v *view) between(source, receiver Point, edges []Segment, boxes []Box) spectrum.Bands {
	loss := v.loss()
	if deep, rest := inside(source, receiver, boxes); deep > 0 {
		w := look(source, receiver, edges, rest)
		free := w.loss()
		w.done()
		for i := range free {
			loss[i] += deep * (free[i] - loss[i])
		}
	}
	return loss
}

// loss is what is taken off on the way, dB.
func (v *view) loss() (b spectrum.Bands) {
	for i, p := range v.passed(GroundInside) {
		if p < 1 {
			b[i] = -10 * math.Log10(p)
		}
	}
	return b
}

// inside tells how far ends lie inside bodies, 1 from half a metre on, and what bodies hold none.
func inside(a, b Point, boxes []Box) (deep float64, rest []Box) {
	if !slices.ContainsFunc(boxes, func(box Box) bool { return box.holds(&a) || box.holds(&b) }) {
		return 0, nil
	}
	for _, box := range boxes {
		d := math.Max(distance(a, toSkin(a, []Box{box})), distance(b, toSkin(b, []Box{box})))
		if d == 0 {
			rest = append(rest, box)
		}
		deep = math.Max(deep, math.Min(1, d/0.5))
	}
	return deep, rest
}

// view is all that may hide one end from the other.
type view struct {
	sight
	*sheet
}

// sheet is what a view is written on, to be used again.
type sheet struct {
	all   []obstacle
	tops  []corner // of all obstacles
	spans []span   // of all ways over them
	cut   []float64
}

var blank = sync.Pool{New: func() any { return new(sheet) }}

// done gives back what the view is written on.
func (v *view) done() { blank.Put(v.sheet) }

// look is a view, to be given back by done.
func look(source, receiver Point, edges []Segment, boxes []Box) view {
	source, receiver = toSkin(source, boxes), toSkin(receiver, boxes)
	if math.Hypot(receiver[0]-source[0], receiver[1]-source[1]) < 10*grazing {
		receiver[0] += 10 * grazing // straight up: any direction in plan will do
	}
	v := view{newSight(source, receiver), blank.Get().(*sheet)}
	v.all, v.tops, v.spans = v.all[:0], v.tops[:0], v.spans[:0]
	if v.distance < 20*grazing {
		return v
	}
	for i := range boxes {
		v.meetBox(&boxes[i])
	}
	for i := range edges {
		v.meetEdge(&edges[i])
	}
	v.all = v.all[:min(len(v.all), 64)]
	return v
}

// toSkin moves a point that lies inside a body to the nearest place of its skin.
func toSkin(p Point, boxes []Box) Point {
	for i := range boxes {
		b := &boxes[i]
		if !b.holds(&p) {
			continue
		}
		axis, to, least := 0, 0.0, math.Inf(1)
		for k := range p {
			for _, face := range [2]float64{b.Min[k], b.Max[k]} {
				if d := math.Abs(p[k] - face); d < least {
					axis, to, least = k, face, d
				}
			}
		}
		p[axis] = to
	}
	return p
}

func (v *view) crossed() (set []int) {
	for i, o := range v.all {
		if o.crossed {
			set = append(set, i)
		}
	}
	return set
}

// nearest names what the sight line passes closest.
func (v *view) nearest() (name string) {
	least := math.Inf(1)
	for _, o := range v.all {
		if d := math.Min(math.Abs(o.left), math.Abs(o.right)); d < least {
			name, least = o.name, d
		}
	}
	return name
}

// over is the shortest way over the tops of a set of obstacles in the upright plane through both ends: stretched
// over what stands above the sight line, else touching the edge that it comes closest to.
func (v *view) over(set []int) Screen {
	var kept [few]corner
	tops := kept[:0]
	for _, i := range set {
		tops = append(tops, v.all[i].top...)
	}
	return v.overTops(tops)
}

// alone is the way over one obstacle.
func (v *view) alone(o *obstacle) Screen { return v.overTops(o.top) }

func (v *view) overTops(tops []corner) (s Screen) {
	var kept [few][2]float64
	var room hull
	points := kept[:0]
	for i := range tops {
		c := &tops[i]
		points = append(points, [2]float64{c.u, c.p[2]})
	}
	if hull := upperHull(&room, points, [2]float64{0, v.s[2]}, [2]float64{1, v.r[2]}); len(hull) > 0 {
		return v.stretched(tops, hull)
	}
	for i := range tops {
		c := &tops[i]
		if z := v.clearance(c); s.Edges == 0 || z > s.Z {
			s = Screen{Z: z, Edges: 1, Dss: distance(v.s, c.p), Dsr: distance(c.p, v.r), D: v.distance, Over: c.name}
		}
	}
	return s
}

// clearance is the straight way less that by an edge in the upright plane, m, for a clear line; -Inf at its ends.
func (l *sight) clearance(c *corner) float64 {
	near := math.Min(c.u, 1-c.u) * l.length
	if near <= 0 {
		return math.Inf(-1)
	}
	return math.Min(0, askew(l.distance-distance(l.s, c.p)-distance(c.p, l.r), along(l.s, l.r, c.u)[2]-c.p[2], near))
}

func (v *view) stretched(tops []corner, hull []int) Screen {
	var kept [few]Point
	at, length, last := kept[:0], 0.0, v.s
	for i, h := range hull {
		at = append(at, tops[h].p)
		length, last = length+distance(last, at[i]), at[i]
	}
	s := Screen{
		Z: length + distance(last, v.r) - v.distance, Edges: min(len(at), 2), D: v.distance,
		Dss: distance(v.s, at[0]), Dsr: distance(last, v.r), Over: tops[hull[0]].name,
	}
	if s.Edges > 1 {
		first := len(v.spans)
		v.spans = between(v.spans, v.s, v.r, at)
		s.spans = v.spans[first:]
	}
	for _, w := range s.spans {
		s.E += w.share * w.e
	}
	return s
}

// slight is the part of the whole turn over all edges that makes the first edge, and the last (judgement).
const slight = 0.2

// span is a way between two edges, m, and the share by which these two are the outer ones; all shares make one.
type span struct{ e, share float64 }

// between adds the ways from the first to the last edge: every edge has the part in the first that it has in the first
// fifth of all turning downwards, and likewise in the last. So an edge over which the way hardly turns counts in
// part, edges that come together count as one, and nothing steps where the way just touches one.
func between(spans []span, s, r Point, at []Point) []span {
	var kept [2][few]float64
	n, sum := len(at), 0.0
	way, turns := kept[0][:], kept[1][:]
	if n > few {
		way, turns = make([]float64, n), make([]float64, n)
	}
	climb := rise(s, at[0])
	for i, p := range at {
		after := r
		if i > 0 {
			way[i] = way[i-1] + distance(at[i-1], p)
		}
		if i < n-1 {
			after = at[i+1]
		}
		next := rise(p, after)
		turns[i] = math.Max(0, climb-next)
		sum += slight * turns[i]
		climb = next
	}
	for i, left := 0, sum; i < n && left > 0; i++ {
		a := math.Min(left, turns[i])
		left -= a
		for j, right := n-1, sum; j >= 0 && right > 0; j-- {
			b := math.Min(right, turns[j])
			right -= b
			if share := a * b / (sum * sum); share > 0 {
				spans = append(spans, span{math.Abs(way[j] - way[i]), share})
			}
		}
	}
	return spans
}

// rise is the angle at which the way from a to b climbs, rad.
func rise(a, b Point) float64 { return math.Atan2(b[2]-a[2], math.Hypot(b[0]-a[0], b[1]-a[1])) }

func edgesInWords(n int) string {
	if n == 1 {
		return "one edge"
	}
	return "two edges"
}
