package boatfile

import (
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/source"
)

// Limits of what can stand in a boat (judgement).
const (
	besideEngine = 1.5  // m from an engine's middle to its manifold
	engineAstray = 0.5  // m that an engine's middle may lie outside its space as taped
	roundabout   = 1.1  // a line may be this much longer than it was taped
	underKeel    = 1.0  // m under the lowest floor
	deepest      = 3.0  // m that the keel lies under the water where no floor is stated
	airChanges   = 10.0 // 1/s, of a box by its fan
	leastShare   = 0.2  // of the fuel's heat, to the shaft
	sameSpeed    = 0.1  // by which a constant-speed set's speed may differ
)

// possible checks what lies where and what is larger than what it stands in.
func (r *reader) possible(o *decode.Object, b *path.Boat, l *path.Layout) {
	for i := range l.Exhausts {
		r.outletPlace(o, b, l, &l.Exhausts[i])
	}
	for i := range l.Engines {
		e := &l.Engines[i]
		for k := range l.Enclosures {
			if box := &l.Enclosures[k]; box.Name == e.Enclosure {
				r.boxInRoom(r.changedNode(o, l, "enclosures", box.Name, "size"), box, findSpace(l.Spaces, e.In))
				r.boxHeat(r.changedNode(o, l, "enclosures", box.Name, "heat"), l, box)
			}
		}
	}
}

// outletPlace looks where an outlet lies: outdoors, over the keel, and no farther off than its line is long.
func (r *reader) outletPlace(o *decode.Object, b *path.Boat, l *path.Layout, x *path.Exhaust) {
	out := &x.Line.Outlet
	if !out.Present || x.Engine == "bench" {
		return
	}
	at := r.outletNode(o, l, x.Engine)
	if s := spaceAround(l.Spaces, out.At); s != "" {
		r.Warn(nil, "layout %q: the outlet of %q lies inside the space %q; exhaust must end outdoors", l.Name, x.Engine, s)
	}
	lowest := math.Inf(1)
	for i := range l.Spaces {
		if l.Spaces[i].AtStated {
			lowest = math.Min(lowest, l.Spaces[i].At[2])
		}
	}
	if out.At[2] < math.Min(lowest, 0)-underKeel && !math.IsInf(lowest, 1) {
		r.Wrong(at, "z counts up from the waterline; an outlet at the water lies at about 0 m", "layout %q: the outlet of %q lies %s under the water, under the keel: the lowest floor is at %s",
			l.Name, x.Engine, quantity.Format(-out.At[2], quantity.Length, quantity.Metric), quantity.Format(lowest, quantity.Length, quantity.Metric))
	}
	if math.IsInf(lowest, 1) && out.At[2] < -deepest {
		r.Warn(at, "layout %q: the outlet of %q lies %s under the water; the keel of a boat of which no floor is stated lies about %s deep at most (judgement): z counts up from the waterline",
			l.Name, x.Engine, quantity.Said(-out.At[2], quantity.Length), quantity.Said(deepest, quantity.Length))
	}
	for i := range l.Engines {
		e := &l.Engines[i]
		if e.Name != x.Engine {
			continue
		}
		from, within, what := b.EngineSite(l, e)
		long := x.Line.Length()
		apart := math.Sqrt(sq(from[0]-out.At[0]) + sq(from[1]-out.At[1]) + sq(from[2]-out.At[2]))
		allowed := within + (roundabout-1)*long + besideEngine
		if lacking := apart - long - allowed; lacking > 0 && !r.said(x) {
			r.Warn(at, "layout %q: the outlet of %q lies %s from %s, but the line is %s long (%s more are allowed for the way to the manifold and the tape): about %s of pipe are not in the line, or one of the places is wrong",
				l.Name, x.Engine, quantity.Said(apart, quantity.Length), what, quantity.Said(long, quantity.Length), quantity.Said(allowed, quantity.Length), quantity.Said(lacking, quantity.Length))
		}
	}
}

// said tells whether a line too short for the place of an outlet was warned of in a layout before, and notes it: layouts that
// take an outlet over take its fault too.
func (r *reader) said(x *path.Exhaust) (before bool) {
	k := outletOf{x.Engine, x.Line.Outlet.At}
	if r.astray == nil {
		r.astray = map[outletOf]bool{}
	}
	before, r.astray[k] = r.astray[k], true
	return before
}

func sq(x float64) float64 { return x * x }

// outletNode is where an outlet's place stands in the file.
func (r *reader) outletNode(o *decode.Object, l *path.Layout, engine string) *decode.Node {
	_, layouts := o.At.Find("layouts")
	if layouts == nil {
		return nil
	}
	for _, item := range layouts.Items {
		_, name := item.Find("name")
		_, all := item.Find("exhausts")
		_, x := all.Find(engine)
		_, out := x.Find("outlet")
		if _, at := out.Find("at"); at != nil && (name == nil || name.Text == l.Base) {
			return at
		}
	}
	return layouts
}

// changedNode points at the layout's change if there is one, else at the base entry.
func (r *reader) changedNode(o *decode.Object, l *path.Layout, section, name, key string) *decode.Node {
	_, layouts := o.At.Find("layouts")
	if layouts != nil {
		for _, item := range layouts.Items {
			_, n := item.Find("name")
			_, c := item.Find("changes")
			_, s := c.Find(section)
			_, e := s.Find(name)
			if _, v := e.Find(key); v != nil && n != nil && l.Base == strings.TrimSpace(n.Text) {
				return v
			}
		}
	}
	return under(o.At, section, name, key)
}

// under finds the node of a key below a named entry of a section, for pointing at it.
func under(root *decode.Node, section, name, key string) *decode.Node {
	_, s := root.Find(section)
	_, e := s.Find(name)
	if _, v := e.Find(key); v != nil {
		return v
	}
	if k, _ := s.Find(name); k != nil {
		return k
	}
	return s
}

// larger tells whether a box can't be turned so that it fits in another.
func larger(a, b [3]float64) bool {
	slices.Sort(a[:])
	slices.Sort(b[:])
	for i := range a {
		if a[i] > 1.001*b[i] {
			return true
		}
	}
	return false
}

func (r *reader) boxInRoom(at *decode.Node, b *path.Enclosure, s *path.Space) {
	if s == nil || !s.SizeStated || !larger(b.Size, s.Size) {
		return
	}
	r.Wrong(at, "measure both inside; within "+sizeText(s.Size)+" it would fit", "the enclosure %q, %s, does not fit in the space %q, %s", b.Name, sizeText(b.Size), s.Name, sizeText(s.Size))
}

func sizeText(size [3]float64) string {
	return quantity.Format(size[0], quantity.Length, quantity.Metric) + " by " + quantity.Format(size[1], quantity.Length, quantity.Metric) + " by " + quantity.Format(size[2], quantity.Length, quantity.Metric)
}

// boxHeat refuses more heat in a box than the engines in it burn.
func (r *reader) boxHeat(at *decode.Node, l *path.Layout, b *path.Enclosure) {
	burnt := 0.0
	for i := range l.Engines {
		switch e := &l.Engines[i]; {
		case e.Enclosure != b.Name:
		case e.FuelConsumption > 0:
			burnt += e.FuelConsumption * e.Rated.Power * e.HeatingValue()
		default:
			burnt += e.Rated.Power / leastShare
		}
	}
	if b.Heat > burnt && burnt > 0 {
		r.Wrong(at, "a tenth of that is usual, "+quantity.Format(burnt/10, quantity.Power, quantity.Metric)+", and what an alternator in it loses", "enclosures.%s heat: %s is more than the fuel burnt in it holds, %s at rated",
			b.Name, quantity.Format(b.Heat, quantity.Power, quantity.Metric), quantity.Format(burnt, quantity.Power, quantity.Metric))
	}
}

// fanFits refuses a fan that no box could hold.
func (r *reader) fanFits(n *decode.Node, e *path.Enclosure) {
	volume := e.Size[0] * e.Size[1] * e.Size[2]
	if e.Fan == nil || n == nil {
		return
	}
	flow := e.Fan.Flow
	for _, p := range e.Fan.Curve {
		flow = max(flow, p.Flow)
	}
	if flow <= airChanges*volume {
		return
	}
	r.Wrong(n, "0.2 m3/s is 720 m3/h or 420 cfm: is the unit right?", "enclosures.%s fan: %s would change the air of the box, %s, %.0f times a second; %.0f at most can be",
		e.Name, quantity.Format(flow, quantity.VolumeFlow, quantity.Metric), quantity.Format(volume, quantity.Volume, quantity.Metric), flow/volume, airChanges)
}

// ductFits refuses a duct wider than the box it stands on, and warns of one much wider than its hole.
func (r *reader) ductFits(n *decode.Node, what string, size [2]float64, area float64, box [3]float64) {
	sides := box
	slices.Sort(sides[:])
	switch wide, narrow := math.Max(size[0], size[1]), math.Min(size[0], size[1]); {
	case wide > sides[2] || narrow > sides[1]:
		r.Wrong(n, "give the clear width and height of the duct, "+quantity.Format(sides[2], quantity.Length, quantity.Metric)+" by "+quantity.Format(sides[1], quantity.Length, quantity.Metric)+" at most", "%s size: %s by %s is larger than the box, %s", what, quantity.Format(size[0], quantity.Length, quantity.Metric), quantity.Format(size[1], quantity.Length, quantity.Metric), sizeText(box))
	case wide*narrow > 1.5*area:
		r.Warn(n, "%s has more section (%s) than its opening (%s): the hole is what lets air through", what, quantity.Said(wide*narrow, quantity.Area), quantity.Said(area, quantity.Area))
	case wide*narrow < 0.8*area:
		r.Warn(n, "%s has less section (%s) than its opening (%s)", what, quantity.Said(wide*narrow, quantity.Area), quantity.Said(area, quantity.Area))
	}
}

// steady refuses a speed that a constant-speed set never has.
func (r *reader) steady(n *decode.Node, what string, e *path.Engine, speed float64) {
	if n == nil || e.Load != source.ConstantSpeed || e.Rated.Speed <= 0 || math.Abs(speed/e.Rated.Speed-1) <= sameSpeed {
		return
	}
	r.Wrong(n, "write "+quantity.Format(e.Rated.Speed, quantity.RotationalSpeed, quantity.Metric)+", or rate it at the speed it runs at, or load: propeller", "%s: %q is no speed of a constant-speed set rated at %s", what, n.Text, quantity.Format(e.Rated.Speed, quantity.RotationalSpeed, quantity.Metric))
}
