package lines

import (
	"fmt"
	"math"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"hushwake/silencer"
	"hushwake/silencer/wet"
	"hushwake/source/said"
)

func (e *element) pipe() (silencer.Element, []field) {
	p := &silencer.Pipe{}
	return p, []field{
		e.bore(&p.Bore, true),
		length("length", &p.Length, decode.UpTo(200)).must(),
		length("wall", &p.Wall, decode.UpTo(0.05)).or(0.003, decode.Practice, 0),
		length("roughness", &p.Roughness, decode.Limits{Min: 0, Max: 0.01}),
		bends(&p.Bends, &p.Bore),
		metal(&p.Common, "mild steel", 0),
	}
}

// bends are [{angle, radius}]; a bend whose radius nobody measured is taken at 1.5 bores.
func bends(to *[]silencer.Bend, bore *float64) field {
	bend := schema.Mapping("a bend", schema.Fields{"angle": schema.Quantity(quantity.Angle), "radius": schema.Quantity(quantity.Length)})
	return field{keys: schema.Fields{"bends": schema.List(bend, 0, 50)}, read: func(e *element) {
		for _, item := range e.l.Common.List(e.o.Get("bends"), e.o.Path+" bends", 0, 50) {
			o := e.l.Common.Object(item, e.o.Path+".bends")
			b := silencer.Bend{Angle: e.angle(o)}
			if b.Radius, _ = o.Value("radius", decode.NotNegative, quantity.Length); !o.Has("radius") {
				b.Radius = 1.5 * *bore
				e.fill("radius of bends", "1.5 bores", decode.Practice, 0)
			}
			o.Done()
			*to = append(*to, b)
		}
	}}
}

func (e *element) angle(o *decode.Object) float64 {
	if !o.Has("angle") {
		o.Raw("angle")
		e.fill("angle", "90 deg", decode.Practice, 0)
		return math.Pi / 2
	}
	v, _ := o.Value("angle", decode.UpTo(2*math.Pi), quantity.Angle)
	return v
}

func (e *element) bellows() (silencer.Element, []field) {
	b := &silencer.Bellows{}
	return b, []field{
		e.bore(&b.Bore, false),
		length("length", &b.Length, decode.UpTo(5)).or(0.3, decode.Practice, 0),
		length("travel", &b.Travel, decode.Positive).assumed(0, "not stated: growth can't be judged", "the bellows' maker states it", 0),
		metal(&b.Common, "stainless steel", 0),
	}
}

func (e *element) elbow() (silencer.Element, []field) {
	b := &silencer.Elbow{}
	return b, []field{
		e.bore(&b.Bore, false),
		amount("angle", &b.Angle, quantity.Angle, decode.UpTo(2*math.Pi)).assumed(math.Pi/2, "90 deg", decode.Practice, 0),
		length("radius", &b.Radius, decode.NotNegative).by(func() float64 { return 1.5 * b.Bore }, decode.Practice+": 1.5 bores", 0),
		metal(&b.Common, "mild steel", 0),
	}
}

func (e *element) cone() (silencer.Element, []field) {
	c := &silencer.Cone{}
	return c, []field{
		{keys: schema.Fields{"bores": schema.Lengths("at its inlet and outlet", 2, 2)}, key: "bores", port: true, taken: "both that of the part beside it", read: func(e *element) {
			if b := e.l.Common.Lengths(e.o.Get("bores"), e.o.Path+" bores", 2, 2, decode.UpTo(3)); len(b) == 2 {
				c.Bores = [2]float64(b)
			} else if c.Bores = [2]float64{e.neighbour(), e.neighbour()}; !e.o.Has("bores") {
				e.fill("bores", metric(c.Bores[0])+" at both ends", "that of the part beside it", 1)
			}
			e.handOn("bores", min(c.Bores[0], c.Bores[1]))
			e.l.bore = c.Bores[1]
		}},
		length("length", &c.Length, decode.UpTo(20)).by(func() float64 { return 3 * max(c.Bores[0], c.Bores[1]) }, decode.Practice+": three times its wider bore", 1),
		length("wall", &c.Wall, decode.UpTo(0.05)).or(0.003, decode.Practice, 0),
		metal(&c.Common, "mild steel", 0),
	}
}

func (e *element) hose() (silencer.Element, []field) {
	h := &silencer.Hose{}
	return h, []field{
		e.bore(&h.Bore, true),
		length("length", &h.Length, decode.UpTo(200)).must(),
		length("rise", &h.Rise, decode.Limits{Min: -20, Max: 20}).assumed(0, said.Textf("{0 mm}"), "taken as level", 0),
		refuses(func() bool { return math.Abs(h.Rise) > h.Length && h.Length > 0 }, "", []string{"rise"},
			"a hose of %s can't rise or fall by more than its length", &h.Length),
		bends(&h.Bends, &h.Bore),
		amount("max_temperature", &h.MaxTemp, quantity.Temperature, decode.Positive),
		step(func(*element) {
			if h.Material == "" {
				h.Material = "rubber" // what the kind means, no assumption
			}
		}),
		words("kind", "how its wall is made: fabric alone, or with a helix", []string{string(wet.HoseSoft), string(wet.HoseHard), "unknown"}, func(e *element, kind string) {
			if h.Make = wet.HoseKind(kind); kind == "" || kind == "unknown" {
				h.Make = wet.HoseUnknown
				e.fill("kind", said.Textf("unknown: stiffness {60 MPa} within a factor of 2.5"), "judgement; soft is fabric alone, hard has a helix", 2)
			}
		}),
		length("wall", &h.Wall, decode.UpTo(0.05)).or(wet.HoseWall, decode.Practice+said.Textf(": {5 to 7 mm}"), 0.5),
		refuses(func() bool { return h.Wall >= h.Bore && h.Bore > 0 }, "", []string{"wall"},
			"a wall of %s is not thinner than the bore of %s", &h.Wall, &h.Bore),
	}
}

func (e *element) sideBranch() (silencer.Element, []field) {
	s := &silencer.SideBranch{}
	l := schema.Quantity(quantity.Length)
	return s, []field{
		{keys: schema.Fields{"bore": l, "length": l, "neck": schema.Mapping("neck of a resonator", schema.Fields{"bore": l, "length": l}), "volume": schema.Quantity(quantity.Volume)},
			taken: "a quarter-wave tube of bore and length, without neck and volume", read: func(e *element) { e.tuned(s) }},
		metal(&s.Common, "mild steel", 0),
	}
}

// tuned reads bore and length, or neck and volume.
func (e *element) tuned(s *silencer.SideBranch) {
	quarter := []field{
		length("bore", &s.Bore, decode.UpTo(3)).by(e.neighbour, "that of the pipe it stands on", 3),
		length("length", &s.Length, decode.UpTo(20)).or(0.3, decode.Practice, 5),
	}
	half := func() float64 { return e.neighbour() / 2 }
	asWide := func() float64 { return s.NeckBore }
	resonator := []field{
		amount("volume", &s.Volume, quantity.Volume, decode.Positive).assumed(5*quantity.Litre, "5 L", decode.Practice, 5),
		step(func(e *element) {
			e.fill("shape of the volume", "round, as long as wide", "the length its neck adds there; a flat or long one tunes some per cent off", 1)
		}),
		piece("neck", "neck of a resonator", func() string { return metric(s.NeckBore) + " bore and length" }, 5,
			size{"bore", "bore of the neck", &s.NeckBore, half}, size{"length", "length of the neck", &s.NeckLength, asWide}),
	}
	list := quarter
	if e.o.Get("neck") != nil || e.o.Has("volume") {
		list = resonator
		if e.o.Has("bore") || e.o.Has("length") {
			defer e.l.Common.Wrong(e.key, "keep either bore and length, or neck and volume", "%s is both a quarter-wave tube and a resonator", e.o.Path)
		}
	}
	for _, f := range list {
		f.read(e)
	}
	for _, k := range []string{"bore", "length", "volume"} {
		e.o.Raw(k)
	}
}

func (e *element) parallel() (silencer.Element, []field) {
	p := &silencer.Parallel{}
	bore := e.neighbour()
	return p, []field{{keys: schema.Fields{"branches!": schema.List(schema.Ref("line"), 2, 10)}, read: func(e *element) {
		for i, item := range e.l.Common.List(e.o.Must("branches", "[[...line...], [...line...]]"), e.o.Path+" branches", 2, 10) {
			sub := *e.l
			sub.Path = fmt.Sprintf("%s.branches[%d]", e.o.Path, i+1)
			sub.branch = fmt.Sprintf("%s%s %s branch %d ", e.l.branch, e.kind, e.name, i+1)
			sub.bore = bore
			p.Branches = append(p.Branches, sub.Elements(item, sub.Path))
			e.l.Used, e.l.order = sub.Used, sub.order
		}
	}}}
}
