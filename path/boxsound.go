package path

import (
	"fmt"
	"math"

	"hushwake/path/room"
	"hushwake/source/spectrum"
)

// mouthSpread is how well the place of a mouth is known that only says where it ends, m (judgement).
const mouthSpread = 2.0

// boxedEmitters are the ways out of a box of something inside it: through the walls, with the openings that don't say
// where their mouths lie, and through each mouth that does.
func (s *scene) boxedEmitters(inside emitter, box *Boxed) []emitter {
	out := []emitter{s.outOfBox(inside, s.enclosureStep(box))}
	for i := range box.enc.Openings {
		o := &box.enc.Openings[i]
		if !o.apart() {
			continue
		}
		em := s.outOfBox(inside, s.mouthStep(box, i))
		s.atMouth(&em, o, box.mouth(i))
		out = append(out, em)
	}
	return out
}

// outOfBox adds the step out of the box to what is inside it.
func (s *scene) outOfBox(inside emitter, step Step) emitter {
	inside.steps = append(inside.steps[:len(inside.steps):len(inside.steps)], step)
	inside.bands = inside.bands.Plus(step.Bands)
	return inside
}

// atMouth moves an emitter to the mouth of an opening.
func (s *scene) atMouth(em *emitter, o *Opening, name string) {
	em.way, em.how = ByBoxOpening, em.how+" > "+name
	if o.To != "" {
		em.place = o.To
	}
	switch {
	case o.AtStated:
		em.site = site{at: o.At}
	case o.To != "":
		em.spread = math.Hypot(em.spread, mouthSpread)
	}
	if n, ok := facings[o.Facing]; ok && em.place == Outside && o.section() > 0 {
		em.facing, em.bore = n, math.Sqrt(4*o.section()/math.Pi)
	}
}

// section is the clear area of the mouth, m2.
func (o *Opening) section() float64 {
	if o.Duct != nil && o.Duct.Size[0] > 0 && o.Duct.Size[1] > 0 {
		return o.Duct.Size[0] * o.Duct.Size[1]
	}
	return o.Area
}

// mouth names an opening: inlet, or inlet 2 where there are several.
func (b *Boxed) mouth(i int) string {
	role, n, of := b.enc.Openings[i].Role, 0, 0
	for k, o := range b.enc.Openings {
		if o.Role == role {
			if of++; k <= i {
				n++
			}
		}
	}
	if of > 1 {
		role = fmt.Sprintf("%s %d", role, n)
	}
	return role + " of " + b.enc.Name
}

// enclosureStep is what the box takes off on the way through its walls.
func (s *scene) enclosureStep(box *Boxed) Step {
	return box.step("enclosure "+box.Sound.Name, box.Sound.Out.Walls)
}

// mouthStep is what it takes off on the way through one of its openings.
func (s *scene) mouthStep(box *Boxed, i int) Step {
	o := &box.enc.Openings[i]
	name := fmt.Sprintf("out of the %s, %.0f cm2", box.mouth(i), o.Area*1e4)
	if o.Duct != nil {
		name += fmt.Sprintf(", through a duct of %.2f m", o.Duct.Length)
	}
	return box.step(name, box.Sound.Out.Mouths[i])
}

// step is a share of the power inside as a step of a chain.
func (b *Boxed) step(name string, share spectrum.Bands) Step {
	p := b.Sound
	return Step{Name: name, Formula: p.Formula, Source: p.Source, Mark: p.Mark, Bands: levels(share),
		Uncertain: []Uncertain{{Term: "panel", Key: "enclosure/" + p.Name, SD: p.SD,
			Source: "judgement: small boxes as built measure " + fmt.Sprintf("%.0f to %.0f dB(A), %s", p.Measured[0], p.Measured[1], room.SmallBoxesText)}}}
}

// fanEmitters are the ways out of the sound of a box's fan: into the box, and straight into the duct it stands in.
func (s *scene) fanEmitters(r *ExhaustResult) []emitter {
	f, e := r.Box.fan, s.engine(r.Engine)
	if f == nil || r.Box.Engines[0] != r.Engine {
		return nil
	}
	first := Step{Name: "fan sound power, to either side", Formula: room.FanFormula, Source: room.FanSource, Mark: "from memory", Bands: f.lw,
		Uncertain: []Uncertain{{Term: "fan level", Key: "fan/" + r.Box.enc.Name, SD: f.sd, Source: "VDI 2081: +-4 dB; 2 dB where stated: judgement"}}}
	if f.stated {
		first.Formula, first.Source, first.Mark = "as stated", "the boat file; octaves of an axial fan", "read"
	}
	inside := newEmitter("fan of "+r.Box.enc.Name, "fan", s.placeOf(e), e.At, first)
	inside.engine, inside.way, inside.site = e.Name, ByAir, s.engineSite(e)
	all := s.boxedEmitters(inside, r.Box)
	if f.at < 0 {
		return all
	}
	duct := opening(r.Box.enc.Openings[f.at]).Duct
	em := s.outOfBox(inside, Step{Name: "duct of the " + r.Box.mouth(f.at), Formula: "regression of lined ducts, bends", Source: room.LinedDuctSource, Mark: "read",
		Bands: spectrum.Bands{}.Minus(duct.Loss()), Uncertain: []Uncertain{{Term: "panel", Key: "duct/" + r.Box.enc.Name, SD: spectrum.Fill(ductSD), Source: "judgement"}}})
	s.atMouth(&em, &r.Box.enc.Openings[f.at], r.Box.mouth(f.at))
	return append(all, em)
}

// intakeEmitter is the mouth of the pipe that an engine in a box breathes through, past the box.
func (s *scene) intakeEmitter(e *Engine, r *ExhaustResult) emitter {
	o := &r.Box.enc.AirMouth
	first := partStep("intake sound power", "intake level", e, e.IntakeMouth(r.Source), false)
	first.Uncertain[0].Source = "judgement: filter, resonances of the pipe, valve timing"
	steps := []Step{first}
	if o.Duct != nil {
		steps = append(steps, Step{Name: "silencer of the air pipe", Formula: "as stated", Source: "the boat file", Mark: "read",
			Bands: spectrum.Bands{}.Minus(opening(*o).Duct.Loss())})
	}
	em := newEmitter(bodyOf(e.Name, "intake"), "intake", s.placeOf(e), e.At, steps...)
	em.engine, em.site = e.Name, s.engineSite(e)
	s.atMouth(&em, o, "air pipe of "+r.Box.enc.Name)
	em.way = ByIntake
	return em
}

// ductSD is the doubt of a short lined duct, dB (judgement).
const ductSD = 3.0

// engine is an engine of the layout by its name.
func (s *scene) engine(name string) *Engine {
	e, _ := s.layout.Engine(name)
	return e
}

// placeOf is the space that an engine stands in, or Outside.
func (s *scene) placeOf(e *Engine) string {
	if _, ok := s.layout.space(e.In); !ok {
		return Outside
	}
	return e.In
}
