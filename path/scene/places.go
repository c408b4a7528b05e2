package scene

import (
	"math"

	"hushwake/path"
	"hushwake/path/outdoor"
	"hushwake/path/room"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// engineSite is where an engine stands.
func (s *scene) engineSite(e *path.Engine) path.Site {
	if e.AtStated {
		return path.Site{At: e.At}
	}
	return s.somewhere(e.In)
}

func (s *scene) somewhere(space string) path.Site {
	at, _ := s.boat.Somewhere(s.layout, space)
	return at
}

// site is where a wall lies, seen from a point outdoors: as stated, in the middle of the face it looks out of,
// on its space's skin nearest to that point, or somewhere.
func (w *wall) site(from path.Point, s *scene) path.Site {
	inner, _ := w.Other(path.Outside)
	sp, ok := s.layout.Space(inner)
	switch _, faced := path.Facings[w.Facing]; {
	case w.known, ok && sp.AtStated && faced:
		return path.Site{At: w.at}
	case ok && sp.AtStated:
		return path.Site{At: nearestOn(sp, from)}
	}
	return s.somewhere(inner)
}

// normal is the way a wall looks outdoors: as stated, else by the face of its space it lies on.
func (w *wall) normal(at path.Point, s *scene) (path.Point, bool) {
	if n, ok := path.Facings[w.Facing]; ok {
		return n, true
	}
	inner, _ := w.Other(path.Outside)
	sp, ok := s.layout.Space(inner)
	if !ok || !sp.AtStated || !w.known {
		return path.Point{}, false
	}
	best, n := math.Inf(1), path.Point{}
	for k := range at {
		for _, f := range [2]struct{ x, way float64 }{{sp.At[k], -1}, {sp.At[k] + sp.Size[k], 1}} {
			if d := math.Abs(at[k] - f.x); d < best {
				best, n = d, path.Point{}
				n[k] = f.way
			}
		}
	}
	return n, true
}

// slant is the cosine taken where a wall does not say which way it looks: 45 deg.
const slant = math.Sqrt2 / 2

// cosine of the angle between the way a wall looks and the way from it to a point; 45 deg where that is not known.
func (w *wall) cosine(at, to path.Point, s *scene) (c float64, known bool) {
	n, ok := w.normal(at, s)
	if !ok || path.Distance(at, to, 0) == 0 {
		return slant, false
	}
	return math.Cos(angle(n, at, to)), true
}

// meets is the power on a wall for a level of 0 dB before it, dB.
func (w *wall) meets(cosine float64) spectrum.Bands {
	return room.IntoPartition(room.Direct, cosine, w.Area, spectrum.Bands{})
}

// piece is a quarter of a wall as seen over its area.
const pieces = 4

// overArea lists the middles of mass of the pieces of a wall and what stands in its place, Gauss points of their
// square in the plane of its facing.
// From a distance of four times its width on, its middle does.
func (w *wall) overArea(at, from path.Point, s *scene) []path.Point {
	n, ok := w.normal(at, s)
	width := math.Sqrt(w.plane.area)
	if !ok || path.Distance(at, from, 0) > 4*width {
		return []path.Point{at}
	}
	a, b := [2]int{1, 2}, width/(2*math.Sqrt(3))
	if n[1] != 0 {
		a = [2]int{0, 2}
	} else if n[2] != 0 {
		a = [2]int{0, 1}
	}
	reach := [2]float64{b, b}
	inner, _ := w.Other(path.Outside)
	if sp, ok := s.layout.Space(inner); ok && sp.AtStated {
		for i, k := range a {
			reach[i] = math.Min(b, sp.Size[k]/(2*math.Sqrt(3)))
		}
	}
	out := make([]path.Point, 0, pieces)
	for _, i := range [2]float64{-1, 1} {
		for _, j := range [2]float64{-1, 1} {
			p := at
			p[a[0]], p[a[1]] = p[a[0]]+i*reach[0], p[a[1]]+j*reach[1]
			out = append(out, p)
		}
	}
	return out
}

// spread takes the steps to or from the middle of a wall over its whole area: the mean energy over its pieces.
func (w *wall) spread(at, from path.Point, s *scene, steps []path.Step, gain func(at path.Point) spectrum.Bands) []path.Step {
	points := w.overArea(at, from, s)
	if len(points) == 1 {
		return steps
	}
	var energy, bands, middle spectrum.Bands
	for i := range steps {
		middle = middle.Plus(steps[i].Bands)
	}
	for _, p := range points {
		for i, v := range gain(p) {
			energy[i] += spectrum.Power(v) / float64(len(points))
		}
	}
	for i, e := range energy {
		bands[i] = spectrum.Level(e)
	}
	return append(steps, path.Step{Name: "over the area of " + w.Label(), Cited: published.By("mean energy over four pieces, less that at the middle", "Gauss points of a square", "derived"), Bands: bands.Minus(middle)})
}

// inView is how little of its own body a wall sees towards a point: 0 where it looks there, 1 where that lies behind
// it; the change lies where scattered sound rules the power on it.
func (w *wall) inView(at, to path.Point, s *scene) float64 {
	c, known := w.cosine(at, to, s)
	if !known {
		return 0
	}
	return math.Max(0, math.Min(1, 1-c/0.25))
}

// bodiesBut leaves out the bodies that the walls belong to.
func (s *scene) bodiesBut(walls ...*wall) []outdoor.Box {
	out := make([]outdoor.Box, 0, len(s.bodies))
	for _, b := range s.bodies {
		own := false
		for _, w := range walls {
			if w != nil {
				inner, _ := w.Other(path.Outside)
				own = own || b.Name == inner
			}
		}
		if !own {
			out = append(out, b)
		}
	}
	return out
}

// stated tells whether an emitter's own place is known, not only that of its space.
func (s *scene) stated(e *emitter) bool {
	x, ok := s.layout.Engine(e.engine)
	return e.Spread == 0 && (!ok || x.AtStated)
}

// angle between direction n (unit) and the way from a to b, rad.
func angle(n [3]float64, a, b path.Point) float64 {
	d := path.Distance(a, b, 1e-9)
	c := (n[0]*(b[0]-a[0]) + n[1]*(b[1]-a[1]) + n[2]*(b[2]-a[2])) / d
	return math.Acos(math.Max(-1, math.Min(1, c)))
}
