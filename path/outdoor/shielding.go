package outdoor

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// Shield is what stands between an outlet and a receiver.
type Shield struct {
	Loss    spectrum.Bands // dB, zero where nothing shields
	Blocked bool           // the line of sight is cut
	Screens []Screen       // the ways round: over the top first, then round the sides
	Text    string
	Source  string
	Mark    string
}

// obstacles is all that lies between source and receiver in plan.
type obstacles struct {
	sight
	top     []corner
	bodies  []Box     // under or in the line of sight
	edges   []Segment // likewise
	blocked bool
}

func survey(source, receiver Point, edges []Segment, boxes []Box) obstacles {
	o := obstacles{sight: newSight(source, receiver)}
	if o.length < grazing {
		return o
	}
	for _, b := range boxes {
		c, blocked := o.blocks(b)
		o.top, o.blocked = append(o.top, c...), o.blocked || blocked
		if len(c) > 0 || blocked {
			o.bodies = append(o.bodies, b)
		}
	}
	for _, e := range edges {
		if c, blocked, ok := o.crossEdge(e); ok {
			o.top, o.blocked = append(o.top, c), o.blocked || blocked
			o.edges = append(o.edges, e)
		}
	}
	return o
}

// Shielding is the loss by edges and bodies between source and receiver: the way over the top and the
// ways round both sides add as energy, each with its own D_z, in the bands whose wave is shorter than the obstacle is wide. A body counts where the line of sight,
// seen from above, runs through it; a body that holds the source or receiver inside does not, nor one
// that the line passes under. Close behind an edge the shadow is deeper than farther off, so that
// walking out of it may raise the level. A clear line close over an edge has a negative path difference and still
// loses a little, as the standard says.
func Shielding(source, receiver Point, edges []Segment, boxes []Box) Shield {
	o := survey(source, receiver, edges, boxes)
	s := Shield{Blocked: o.blocked, Text: "line of sight clear", Source: ScreenSource, Mark: "read"}
	over, ok := o.overTop()
	if !ok {
		return s
	}
	s.Screens = append(s.Screens, over)
	sides := [2][][2]float64{o.plan(1), o.plan(-1)}
	over.Width = widest(sides[0]) + widest(sides[1])
	s.Screens[0] = over
	if over.Loss(GroundInside) == (spectrum.Bands{}) {
		return s
	}
	s.Screens = append(s.Screens, o.roundSides(sides, over.Width)...)
	s.Loss = join(s.Screens)
	s.Text = fmt.Sprintf("over %s: %s, path difference %.3f m", over.Over, edgesInWords(over.Edges), over.Z)
	if n := len(s.Screens) - 1; n > 0 {
		s.Text += fmt.Sprintf(", and %d way(s) round the sides", n)
	}
	return s
}

// join adds what comes by each way as energy; never a gain.
func join(screens []Screen) (b spectrum.Bands) {
	var p spectrum.Bands
	for _, s := range screens {
		for i, v := range s.passed(GroundInside) {
			p[i] += v
		}
	}
	for i := range b {
		if p[i] < 1 {
			b[i] = -10 * math.Log10(p[i])
		}
	}
	return b
}

// overTop is the shortest way over the roof edges; of a clear line, the edge it comes closest to.
func (o obstacles) overTop() (s Screen, ok bool) {
	if len(o.top) == 0 {
		return s, false
	}
	if o.blocked {
		return o.stretched(), true
	}
	for _, c := range o.top {
		p := []Point{c.p}
		z := o.distance - relax(o.s, o.r, p, []Segment{c.edge})
		if !ok || z > s.Z {
			s = Screen{Z: z, Edges: 1, Dss: Distance(o.s, p[0]), Dsr: Distance(p[0], o.r), D: o.distance, Over: c.edge.Name}
			ok = true
		}
	}
	return s, true
}

func (o obstacles) stretched() Screen {
	points := make([][2]float64, len(o.top))
	for i, c := range o.top {
		points[i] = [2]float64{c.u, c.p[2]}
	}
	hull := upperHull(points, [2]float64{0, o.s[2]}, [2]float64{1, o.r[2]})
	at, edges := make([]Point, len(hull)), make([]Segment, len(hull))
	for i, h := range hull {
		at[i], edges[i] = o.top[h].p, o.top[h].edge
	}
	if len(hull) == 0 { // a receiver on the very skin: the edge is level with the line
		return Screen{D: o.distance, Edges: 1, Over: o.top[0].edge.Name}
	}
	length := relax(o.s, o.r, at, edges)
	first, last := at[0], at[len(at)-1]
	return Screen{
		Z: length - o.distance, E: Distance(first, last), Edges: min(len(at), 2), D: o.distance,
		Dss: Distance(o.s, first), Dsr: Distance(last, o.r), Over: edges[0].Name,
	}
}

// roundSides are the ways round the port and starboard side of what stands in the line of sight. There is
// none where source or receiver stands over the body, such as a stack through a roof.
func (o obstacles) roundSides(sides [2][][2]float64, width float64) (out []Screen) {
	for _, b := range o.bodies {
		if b.over(o.s) || b.over(o.r) {
			return nil
		}
	}
	for _, points := range sides {
		hull := upperHull(points, [2]float64{0, 0}, [2]float64{o.length, 0})
		way, last := 0.0, [2]float64{}
		var at [][2]float64
		for _, h := range hull {
			at = append(at, points[h])
			way += math.Hypot(points[h][0]-last[0], points[h][1]-last[1])
			last = points[h]
		}
		if len(at) == 0 {
			continue
		}
		way += math.Hypot(o.length-last[0], last[1])
		rise := o.r[2] - o.s[2]
		s := Screen{Z: math.Hypot(way, rise) - o.distance, Edges: min(len(at), 2), D: o.distance, Side: true, Width: width}
		s.E = math.Hypot(last[0]-at[0][0], last[1]-at[0][1])
		s.Dss, s.Dsr = math.Hypot(at[0][0], at[0][1]), math.Hypot(o.length-last[0], last[1])
		out = append(out, s)
	}
	return out
}

// widest is how far the points reach off the line, m.
func widest(points [][2]float64) (w float64) {
	for _, p := range points {
		w = math.Max(w, p[1])
	}
	return w
}

// plan gives the vertical edges on one side of the line: distance along it and off it, m. Edges behind
// the source or the receiver count as beside it, which shortens the way and so errs to the loud side.
func (o obstacles) plan(side float64) (points [][2]float64) {
	ex, ey := (o.r[0]-o.s[0])/o.length, (o.r[1]-o.s[1])/o.length
	put := func(p Point) {
		x, y := p[0]-o.s[0], p[1]-o.s[1]
		off := side * (ex*y - ey*x)
		if off > 0 {
			points = append(points, [2]float64{math.Max(0, math.Min(o.length, ex*x+ey*y)), off})
		}
	}
	for _, b := range o.bodies {
		for _, p := range []Point{b.Min, {b.Min[0], b.Max[1]}, {b.Max[0], b.Min[1]}, b.Max} {
			put(p)
		}
	}
	for _, e := range o.edges {
		put(e.From)
		put(e.To)
	}
	return points
}

func edgesInWords(n int) string {
	if n == 1 {
		return "one edge"
	}
	return "two edges"
}
