package scene

import (
	"slices"

	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/silencer"
)

// shellEmitters are the walls of the line in the spaces they stand in.
func shellEmitters(s *scene, e *path.Engine, x *path.Exhaust, r path.ExhaustResult) []emitter {
	inside := tones.New(r.Source.Orders, nil, r.Source.Broadband, r.Source.Exhaust.Bands)
	out, from := make([]emitter, 0, len(r.Shells)), s.engineSite(e)
	for i, sh := range r.Shells {
		for _, place := range s.placesOf(r.Shells, i, e.In) {
			em := s.shellEmitter(e, &r, sh, place)
			em.At, em.Spread, em.tones = between(from.At, path.Point(x.Line.Outlet.At), i, len(r.Shells)), from.Spread, inside
			if r.Box != nil && place == r.Box.Enclosure.Name {
				out = append(out, s.boxedEmitters(em, r.Box)...)
				continue
			}
			out = append(out, em)
		}
	}
	return out
}

// placesOf are the spaces that a wall of a line is heard in: those along the line, and what lies between two of them, or by its place
// between the last and the open where the line ends, since it runs through one of these (judgement: in each with all its power).
func (s *scene) placesOf(shells []silencer.Shell, i int, engine string) []string {
	all := path.PlacesAlong(len(shells), func(k int) string { return shells[k].In }, i, engine)
	stated := slices.ContainsFunc(shells[i:], func(sh silencer.Shell) bool { return sh.In != "" })
	switch {
	case len(all) > 1:
		return append(all, s.betweenSpaces(all[0], all[1], false)...)
	case !stated && all[0] != path.Outside:
		return append(all, s.betweenSpaces(all[0], path.Outside, true)...)
	}
	return all
}

// betweenSpaces are the spaces that touch two others and that nobody sits in and no engine stands in: trunks and lockers; placed
// leaves out those of which nobody says where they lie.
func (s *scene) betweenSpaces(a, b string, placed bool) (out []string) {
	for i := range s.layout.Spaces {
		sp := &s.layout.Spaces[i]
		name := sp.Name
		lived := s.layout.HoldsEngine(name) || slices.ContainsFunc(s.boat.Listeners, func(l path.Listener) bool { return l.In == name })
		if !lived && name != a && name != b && (sp.Placed() || !placed) && s.layout.SharedArea(name, a) > 0 && s.layout.SharedArea(name, b) > 0 {
			out = append(out, name)
		}
	}
	return out
}

// shellEmitter is a wall of the line in a space.
func (s *scene) shellEmitter(e *path.Engine, r *path.ExhaustResult, sh silencer.Shell, place string) emitter {
	if r.Box != nil && place == r.Box.Enclosure.Name {
		place = e.In
	}
	if _, ok := s.layout.Space(place); !ok {
		place = path.Outside
	}
	step := partStep("sound power inside the pipe", "source level", e, r.Source.Exhaust.Part, e.ExhaustLevel != nil)
	wall := path.Step{Name: "through the wall of " + sh.Element, Cited: sh.Saying("less what the line up to it takes off; " + sh.Formula),
		Bands:     sh.Bands.Minus(r.Unsilenced),
		Uncertain: []path.Uncertain{uncertain(sh.Doubt)}}
	if sh.In == "" {
		wall.Notes = []string{"where it runs is not stated: " + place + " is taken, by the engine, the parts before and after it that state theirs, and a trunk or locker on the way"}
	}
	em := newEmitter(e.Name+" exhaust", "wall of "+sh.Element, place, path.Point{}, append([]path.Step{step, wall}, otherPipes(*r)...)...)
	em.engine, em.way = e.Name, path.ByLineWall
	return em
}

// between places part i of n evenly on the way from a to b.
func between(a, b path.Point, i, n int) (p path.Point) {
	t := (float64(i) + 0.5) / float64(max(n, 1))
	for k := range p {
		p[k] = a[k] + t*(b[k]-a[k])
	}
	return p
}
