package boatfile

import (
	"math"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/structure"
)

// Words of the section; the parts of a line past the mounts as the model knows them.
var (
	hullWords     = []string{"steel", "aluminium", "grp", "wood", "sandwich"}
	floatingWords = []string{string(structure.NotFloating), string(structure.FloatFloor), string(structure.FloatAll)}
	shaftKinds    = structure.BridgeKinds("shaft")
	exhaustKinds  = structure.BridgeKinds("exhaust")
	pipeKinds     = structure.BridgeKinds("pipes")
)

// Limits of what an owner may state.
const (
	mostMounts   = 24
	disagreement = 1.5 // between two figures of one mount's frequency
)

// hull reads what the boat is built of; what is not said is taken from the partitions by the model.
func (r *reader) hull(n *node) path.Hull {
	o := r.object(n, "hull")
	h := path.Hull{Material: o.word("material", hullWords...)}
	h.Plate, _ = o.value("plate", upTo(0.2), quantity.Length)
	if h.Material == "sandwich" {
		r.warn(o.get("material"), "a sandwich hull is taken as solid laminate: it radiates from a lower frequency on, the band is wider")
	}
	o.done()
	return h
}

// standing reads how an engine stands.
func (r *reader) standing(o *object, e *path.Engine) {
	e.Mass, _ = o.value("mass", positive, quantity.Mass)
	e.Mounts = r.mounts(o.get("mounts"), o.path+".mounts")
	e.FootVelocity = r.bands(o.get("foot_velocity"), o.path+".foot_velocity")
	if n := o.get("bridges"); n != nil {
		b := r.object(n, o.path+".bridges")
		e.Bridges = structure.Bridges{Shaft: b.word("shaft", shaftKinds...), Exhaust: b.word("exhaust", exhaustKinds...), Pipes: b.word("pipes", pipeKinds...)}
		b.done()
		if e.Mounts.Kind == structure.Soft && e.Bridges.Shaft == "rigid" {
			r.warn(b.get("shaft"), "%s: soft mounts with a rigid shaft: it carries the thrust through them and goes out of line", b.path)
		}
	}
	if n := o.get("bed"); n != nil {
		b := r.object(n, o.path+".bed")
		e.Bed.Depth, _ = b.value("depth", upTo(2), quantity.Length)
		e.Bed.Width, _ = b.value("width", upTo(1), quantity.Length)
		e.Bed.Cap, _ = b.value("cap", upTo(0.5), quantity.Length)
		b.done()
	}
}

// mounts reads kind, count and one figure of their softness; figures that disagree are refused.
func (r *reader) mounts(n *node, what string) path.Mounts {
	if n == nil {
		return path.Mounts{}
	}
	o := r.object(n, what)
	m := path.Mounts{Kind: structure.Kind(o.word("kind", structure.Kinds...))}
	m.Deflection, _ = o.value("deflection", upTo(structure.MostDeflection), quantity.Length)
	m.Stiffness, _ = o.value("stiffness", positive, quantity.Stiffness)
	m.Frequency, _ = o.value("frequency", limits{min: 0, max: 100, openMin: true}, quantity.Frequency)
	m.Count, _ = r.whole(o.get("count"), what+" count", 2, mostMounts)
	o.done()
	for _, key := range []string{"deflection", "stiffness", "frequency"} {
		if v := o.get(key); v != nil && m.Kind == structure.Rigid {
			r.wrong(v, "leave it out, or say kind: rubber", "%s: rigid feet have no %s", what, key)
		}
	}
	if m.Deflection > 0 && m.Frequency > 0 {
		by := structure.DeflectionFrequency(m.Deflection, structure.RubberStiffening)
		if math.Max(by/m.Frequency, m.Frequency/by) > disagreement {
			r.wrong(o.get("frequency"), "keep one of the two", "%s: a deflection of %s gives %.1f Hz, not %s", what,
				quantity.Format(m.Deflection, quantity.Length, quantity.Metric), by, quantity.Format(m.Frequency, quantity.Frequency, quantity.Metric))
		}
	}
	return m
}

// plating reads what a space's hull plates carry.
func (r *reader) plating(o *object) (p path.Plating) {
	n := o.get("structure")
	if n == nil {
		return p
	}
	s := r.object(n, o.path+".structure")
	if lined, stated := s.flag("lined"); stated {
		p.Lined = &lined
	}
	p.Floating = structure.Floating(s.word("floating", floatingWords...))
	p.Damped, _ = s.flag("damped")
	p.Plate, _ = s.value("plate", upTo(0.2), quantity.Length)
	s.done()
	return p
}

func mountsSchema() *jsonschema.Schema {
	return mappingSchema("what it stands on", fields{
		"kind": wordsSchema("kind of mount", structure.Kinds...), "deflection": described("static, under the load", quantitySchema(quantity.Length)),
		"stiffness": described("of each, static", quantitySchema(quantity.Stiffness)), "frequency": described("natural, vertical", quantitySchema(quantity.Frequency)),
		"count": wholeSchema("number of mounts", 2, mostMounts),
	})
}

func platingSchema() *jsonschema.Schema {
	yes := &jsonschema.Schema{Types: []string{"boolean", "string"}}
	return mappingSchema("what the hull's plates of the space carry", fields{
		"lined": described("dry lining on battens", yes), "damped": described("a damping layer", yes),
		"floating": {Types: []string{"boolean", "string"}, Description: "floating lining: no, floor, or yes for floor and walls"}, "plate": quantitySchema(quantity.Length),
	})
}

func hullSchema() *jsonschema.Schema {
	return mappingSchema("what the boat is built of", fields{"material": wordsSchema("hull", hullWords...), "plate": described("of the engine space", quantitySchema(quantity.Length))})
}
