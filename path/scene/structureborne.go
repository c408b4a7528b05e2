package scene

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/structure"
	"hushwake/silencer/safety"
	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// structure is the way of a casing's sound through feet, mounts, bed, hull and plates to a seat aboard:
// no box and no bulkhead stops it, and no seat is without it.
func (s *scene) structure(e *emitter, ear path.Listener) (path.Route, bool) {
	f, r := s.feet[e.source], s.rooms[ear.In]
	if f == nil || r.Surface == 0 || e.way == path.ByBoxOpening {
		return path.Route{}, false
	}
	hull, plates, way, doubts, err := s.hullWay(f, e.place, ear.In)
	if err != nil { // sizes were checked when the file was read
		s.warnings = append(s.warnings, "through mounts and hull: "+err.Error())
		return path.Route{}, false
	}
	last := hull.Spaces[len(hull.Spaces)-1]
	cover := s.cover(ear.In)
	t := trail{}.with("", f.SourceSteps(e.steps[0])...)
	t = t.with("mounts and hull", f.MountSteps()...)
	t = t.with("", path.Step{Name: fmt.Sprintf("hull: %s, %s", hullText(f.Material, hull), way), Cited: structure.HullCited, Bands: plates.Minus(f.IntoBed()), Uncertain: doubts})
	t = t.with("", s.plateSteps(f, last, cover, ear.In)...)
	borne := *e
	borne.way, borne.tones = path.ByStructure, nil
	return t.route(&borne, nil), true
}

// plateSteps are radiation and room.
func (s *scene) plateSteps(f *path.Footing, last structure.Space, c structure.Cover, in string) []path.Step {
	words := "bare"
	if c.Lined {
		words = "lined"
	}
	if c.Floating == structure.FloatAll || c.Floating == structure.FloatFloor {
		words += ", floating: " + string(c.Floating)
	}
	room := s.rooms[in].Reverberant()
	least := -10 * math.Log10(s.rooms[in].Surface) // an all-absorbing room still hears its own walls
	for i := range room {
		room[i] = math.Max(room[i], least)
	}
	return []path.Step{
		{Name: said.Textf("plates of %s radiate: {%.0f m2}, %s", in, last.Area, words), Cited: structure.PlatesCited,
			Bands:     last.Radiation(f.Material, c),
			Uncertain: []path.Uncertain{{Term: "plates", Key: "plates/" + in, SD: structure.PlatesSD, Source: "judgement"}}},
		{Name: "field in " + in + ", from all its faces", Cited: published.By("10 lg(4/R)"+s.lowBands(in), "diffuse field, no direct sound", "derived"),
			Bands: room, Uncertain: s.roomSD(in)},
	}
}

// hullWay is the plating from the engine's space to the listener's, with the velocity level of the last plates;
// of several ways over as few spaces the loudest, whatever their order in the file.
func (s *scene) hullWay(f *path.Footing, from, to string) (h structure.Hull, plates spectrum.Bands, way string, doubts []path.Uncertain, err error) {
	ways, known := s.chainsOf(from, to)
	for i, names := range ways {
		next := structure.Hull{Material: f.Material}
		for k, name := range names {
			next.Spaces = append(next.Spaces, s.plating(f, name, to, k == 0))
		}
		lv, err := next.Velocity(f.IntoBed(), f.Velocity.Minus(f.Bridged))
		if err != nil {
			return h, lv, "", nil, err
		}
		if i == 0 || lv.DBA() > plates.DBA() {
			h, plates, way = next, lv, strings.Join(names, ", ")
		}
	}
	doubts = f.Uncertain("hull", path.Uncertain{Term: "hull", Key: "hull/" + to, SD: structure.HullSD, Source: "judgement"})
	if !known {
		way = "two spaces on taken: no wall and no place tells how " + to + " hangs together with " + from
		doubts = append(doubts, path.Uncertain{Term: "hull", Key: "hull/" + to + " not stated", SD: structure.WayUnknownSD,
			Source: "judgement: no wall and no place tells the way"})
	}
	return h, plates, way, doubts, nil
}

// plating is that of one space on the way; one that is not known is taken as large as the listener's.
func (s *scene) plating(f *path.Footing, name, to string, engine bool) structure.Space {
	sp, ok := s.layout.Space(name)
	if !ok {
		sp, _ = s.layout.Space(to)
	}
	plate, damping := f.Material.Plates[1], f.Material.Damping
	if engine {
		if plate = f.Material.Plates[0]; s.boat.Hull.Plate > 0 {
			plate = s.boat.Hull.Plate
		}
	}
	if ok && sp.Plating.Plate > 0 {
		plate = sp.Plating.Plate
	}
	if ok && sp.Plating.Damped {
		damping = math.Max(damping, structure.DampedLoss)
	}
	return structure.NewSpace(sp.Size, engine, plate, damping)
}

// hullText names plates, junctions and damping.
func hullText(m structure.Material, h structure.Hull) string {
	return said.Textf("%s {%.0f mm}, %d junctions, loss factor %.2g", m.Name, h.Spaces[0].Plate*1e3, len(h.Spaces)-1, h.Spaces[len(h.Spaces)-1].Damping)
}

// bareLinings are surfaces behind which no lining stands.
var bareLinings = []string{"bare", "hard", "engine", "painted", "steel"}

// cover is what lies on the plates of a space: lined unless its surfaces are those of an engine space.
func (s *scene) cover(name string) structure.Cover {
	sp, _ := s.layout.Space(name)
	c := structure.Cover{Lined: true, Floating: sp.Plating.Floating}
	for _, w := range bareLinings {
		c.Lined = c.Lined && !strings.Contains(sp.Lining, w)
	}
	if sp.Plating.Lined != nil {
		c.Lined = *sp.Plating.Lined
	}
	return c
}

// shaking is shakes of every engine that runs.
func (s *scene) shaking(p *path.Prediction) (out []safety.Finding) {
	for _, r := range p.Exhausts {
		if f, ok := s.feet[casingOf(r.Engine)].Shakes(r.Source.Duty.Speed); ok {
			out = append(out, f)
		}
	}
	return out
}
