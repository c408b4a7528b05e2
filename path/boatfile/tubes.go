package boatfile

import (
	"fmt"
	"math"

	"hushwake/silencer"
	"hushwake/silencer/wet"
)

// metal fills in the wall's material, which rules growth and radiated heat.
func (e *element) metal(c *silencer.Common, def string) {
	if c.Material == "" {
		c.Material = def
		e.fill("material", def, practice, 0)
	}
}

func (e *element) pipe(n *node) silencer.Element {
	p := &silencer.Pipe{Common: e.open(n)}
	p.Bore = e.ownBore(true)
	p.Length = e.o.mustValue("length", upTo(200), Length)
	p.Wall = e.sized("wall", upTo(0.05), 0.003, practice, 0)
	p.Roughness, _ = e.o.value("roughness", limits{min: 0, max: 0.01}, Length)
	p.Bends = e.bends(p.Bore)
	e.metal(&p.Common, "mild steel")
	e.o.done()
	return p
}

// bends reads [{angle, radius}]; a bend whose radius nobody measured is taken at 1.5 bores.
func (e *element) bends(bore float64) []silencer.Bend {
	var out []silencer.Bend
	for _, item := range e.l.r.list(e.o.get("bends"), e.o.path+" bends", 0, 50) {
		o := e.l.r.object(item, e.o.path+".bends")
		b := silencer.Bend{Angle: e.angle(o)}
		switch {
		case o.has("radius"):
			b.Radius, _ = o.value("radius", notNegative, Length)
		default:
			o.raw("radius")
			b.Radius = 1.5 * bore
			e.fill("radius of bends", "1.5 bores", practice, 0)
		}
		o.done()
		out = append(out, b)
	}
	return out
}

func (e *element) angle(o *object) float64 {
	if !o.has("angle") {
		o.raw("angle")
		e.fill("angle", "90 deg", practice, 0)
		return math.Pi / 2
	}
	v, _ := o.value("angle", upTo(2*math.Pi), Angle)
	return v
}

func (e *element) bellows(n *node) silencer.Element {
	b := &silencer.Bellows{Common: e.open(n)}
	b.Bore = e.ownBore(false)
	b.Length = e.sized("length", upTo(5), 0.3, practice, 0)
	if b.Travel, _ = e.o.value("travel", positive, Length); !e.o.has("travel") {
		e.fill("travel", "not stated: growth can't be judged", "the bellows' maker states it", 0)
	}
	e.metal(&b.Common, "stainless steel")
	e.o.done()
	return b
}

func (e *element) elbow(n *node) silencer.Element {
	b := &silencer.Elbow{Common: e.open(n)}
	b.Bore = e.ownBore(false)
	b.Angle = e.angle(e.o)
	b.Radius = e.sized("radius", notNegative, 1.5*b.Bore, practice+": 1.5 bores", 0)
	e.metal(&b.Common, "mild steel")
	e.o.done()
	return b
}

func (e *element) hose(n *node) silencer.Element {
	h := &silencer.Hose{Common: e.open(n)}
	h.Bore = e.ownBore(true)
	h.Length = e.o.mustValue("length", upTo(200), Length)
	if h.Rise, _ = e.o.value("rise", limits{min: -20, max: 20}, Length); !e.o.has("rise") {
		e.fill("rise", "0 mm", "taken as level", 0)
	}
	if math.Abs(h.Rise) > h.Length && h.Length > 0 {
		e.l.r.wrong(e.o.get("rise"), "", "%s: a hose of %s can't rise or fall by more than its length", e.o.path, Format(h.Length, Length, Metric))
	}
	h.Bends = e.bends(h.Bore)
	h.MaxTemp, _ = e.o.value("max_temperature", positive, Temperature)
	if h.Material == "" {
		h.Material = "rubber" // what the kind means, no assumption
	}
	e.hoseWall(h)
	e.o.done()
	return h
}

// hoseWall reads what the hose's wall is made of, as far as the owner knows.
func (e *element) hoseWall(h *silencer.Hose) {
	kind := e.o.word("kind", string(wet.HoseSoft), string(wet.HoseHard), "unknown")
	if h.Make = wet.HoseKind(kind); kind == "" || kind == "unknown" {
		h.Make = wet.HoseUnknown
		e.fill("kind", "unknown: stiffness 60 MPa within a factor of 2.5", "judgement; soft is fabric alone, hard has a helix", 2)
	}
	h.Wall = e.sized("wall", upTo(0.05), wet.HoseWall, practice+": 5 to 7 mm", 0.5)
	if h.Wall >= h.Bore && h.Bore > 0 {
		e.l.r.wrong(e.at("wall"), "", "%s: a wall of %s is not thinner than the bore of %s", e.o.path, Format(h.Wall, Length, Metric), Format(h.Bore, Length, Metric))
	}
}

func (e *element) sideBranch(n *node) silencer.Element {
	s := &silencer.SideBranch{Common: e.open(n)}
	r, o := e.l.r, e.o
	if neck := o.get("neck"); neck != nil || o.has("volume") {
		e.helmholtz(s, neck)
	} else {
		s.Bore = e.sized("bore", upTo(3), e.neighbour(), "that of the pipe it stands on", 3)
		s.Length = e.sized("length", upTo(20), 0.3, practice, 5)
	}
	if s.Volume > 0 && (o.has("bore") || o.has("length")) {
		r.wrong(e.key, "keep either bore and length, or neck and volume", "%s is both a quarter-wave tube and a resonator", o.path)
	}
	for _, k := range []string{"bore", "length"} {
		o.raw(k)
	}
	e.metal(&s.Common, "mild steel")
	o.done()
	return s
}

func (e *element) helmholtz(s *silencer.SideBranch, neck *node) {
	var ok bool
	if s.Volume, ok = e.o.value("volume", positive, Volume); !ok {
		s.Volume = 5 * litre
		if !e.o.has("volume") {
			e.fill("volume", "5 L", practice, 5)
		}
	}
	e.fill("shape of the volume", "round, as long as wide", "the length its neck adds there; a flat or long one tunes some per cent off", 1)
	if neck == nil {
		s.NeckBore = e.neighbour() / 2
		s.NeckLength = s.NeckBore
		e.fill("neck", Format(s.NeckBore, Length, Metric)+" bore and length", practice, 5)
		return
	}
	k := e.l.r.object(neck, e.o.path+".neck")
	s.NeckBore = e.part(k, "bore", e.neighbour()/2, "bore of the neck")
	s.NeckLength = e.part(k, "length", s.NeckBore, "length of the neck")
	k.done()
}

func (e *element) parallel(n *node) silencer.Element {
	p := &silencer.Parallel{Common: e.open(n)}
	bore := e.neighbour()
	for i, item := range e.l.r.list(e.o.must("branches", "[[...line...], [...line...]]"), e.o.path+" branches", 2, 10) {
		sub := *e.l
		sub.path = fmt.Sprintf("%s.branches[%d]", e.o.path, i+1)
		sub.branch = fmt.Sprintf("%s%s %s branch %d ", e.l.branch, e.kind, e.name, i+1)
		sub.bore = bore
		p.Branches = append(p.Branches, sub.elements(item, sub.path))
		e.l.used, e.l.order = sub.used, sub.order
	}
	e.o.done()
	return p
}
