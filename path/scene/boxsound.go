package scene

import (
	"math"

	"hushwake/path"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// mouthSpread is how well the place of a mouth is known that only says where it ends, m (judgement).
const mouthSpread = 2.0

// boxedEmitters are the ways out of a box of something inside it: through the walls, with the openings that don't say
// where their mouths lie, and through each mouth that does.
func (s *scene) boxedEmitters(inside emitter, box *path.Boxed) []emitter {
	out := []emitter{s.outOfBox(inside, box.WallStep())}
	for i := range box.Enclosure.Openings {
		o := &box.Enclosure.Openings[i]
		if !o.Apart() {
			continue
		}
		em := s.outOfBox(inside, box.MouthStep(i))
		s.atMouth(&em, o, box.Mouth(i))
		out = append(out, em)
	}
	return out
}

// outOfBox adds the step out of the box to what is inside it.
func (s *scene) outOfBox(inside emitter, step path.Step) emitter {
	inside.steps = append(inside.steps[:len(inside.steps):len(inside.steps)], step)
	inside.bands = inside.bands.Plus(step.Bands)
	return inside
}

// atMouth moves an emitter to the mouth of an opening.
func (s *scene) atMouth(em *emitter, o *path.Opening, name string) {
	em.way, em.how = path.ByBoxOpening, em.how+" > "+name
	if o.To != "" {
		em.place = o.To
	}
	switch {
	case o.AtStated:
		em.Site = path.Site{At: o.At}
	case o.To != "":
		em.Spread = math.Hypot(em.Spread, mouthSpread)
	}
	if n, ok := path.Facings[o.Facing]; ok && em.place == path.Outside && o.Section() > 0 {
		em.facing, em.bore = n, math.Sqrt(4*o.Section()/math.Pi)
	}
}

// fanEmitters are the ways out of the sound of a box's fan: into the box, and straight into the duct it stands in.
func (s *scene) fanEmitters(r *path.ExhaustResult) []emitter {
	f, e := r.Box.Fan, s.engine(r.Engine)
	if f == nil || r.Box.Engines[0] != r.Engine {
		return nil
	}
	inside := newEmitter("fan of "+r.Box.Enclosure.Name, "fan", s.placeOf(e), e.At, r.Box.FanStep())
	inside.engine, inside.way, inside.Site = e.Name, path.ByAir, s.engineSite(e)
	all := s.boxedEmitters(inside, r.Box)
	if f.At < 0 {
		return all
	}
	em := s.outOfBox(inside, r.Box.DuctStep(f.At))
	s.atMouth(&em, &r.Box.Enclosure.Openings[f.At], r.Box.Mouth(f.At))
	return append(all, em)
}

// intakeEmitter is the mouth of the pipe that an engine in a box breathes through, past the box.
func (s *scene) intakeEmitter(e *path.Engine, r *path.ExhaustResult) emitter {
	o := &r.Box.Enclosure.AirMouth
	first := partStep("intake sound power", "intake level", e, e.IntakeMouth(r.Source), false)
	first.Uncertain[0].Source = "judgement: filter, resonances of the pipe, valve timing"
	steps := []path.Step{first}
	if o.Duct != nil {
		steps = append(steps, path.Step{Name: "silencer of the air pipe", Cited: published.By("as stated", "the boat file", "read"),
			Bands: spectrum.Bands{}.Minus(o.DuctLoss())})
	}
	if r.Box.Enclosure.AirUnknown {
		steps = append(steps, path.Step{Name: "a pipe past the box, not stated", Cited: published.By("a quarter of the intake in the middle", "judgement", "judgement"), Bands: spectrum.Fill(-airPipeSD),
			Uncertain: []path.Uncertain{{Term: "panel", Key: "air pipe/" + r.Box.Enclosure.Name, SD: spectrum.Fill(airPipeSD), Source: "judgement: all of it one standard deviation off"}}})
	}
	em := newEmitter(bodyOf(e.Name, "intake"), "intake", s.placeOf(e), e.At, steps...)
	em.engine, em.Site = e.Name, s.engineSite(e)
	s.atMouth(&em, o, "air pipe of "+r.Box.Enclosure.Name)
	em.way = path.ByIntake
	return em
}

// airPipeSD is how much less than all of the intake a box lets past it of which nobody says where its engine breathes, dB, and its doubt:
// in one box of six it has a pipe of its own (judgement; the doubt alone, on the way through the box, was lost among its
// quiet ways, and such a box 1.8 dB quieter than one with a pipe).
const airPipeSD = 6.0

// engine is an engine of the layout by its name.
func (s *scene) engine(name string) *path.Engine {
	e, _ := s.layout.Engine(name)
	return e
}

// placeOf is the space that an engine stands in, or Outside.
func (s *scene) placeOf(e *path.Engine) string {
	if _, ok := s.layout.Space(e.In); !ok {
		return path.Outside
	}
	return e.In
}
