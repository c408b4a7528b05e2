package boatfile

import (
	"math"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"hushwake/path/structure"
)

// Words of the section; the parts of a line past the mounts as the model knows them.
var (
	hullWords     = append(structure.MaterialNames(), "sandwich")
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
func (r *reader) hull(n *decode.Node) path.Hull {
	o := r.Object(n, "hull")
	h := path.Hull{Material: o.Word("material", hullWords...)}
	h.Plate, _ = o.Value("plate", decode.UpTo(0.2), quantity.Length)
	if h.Material == "sandwich" {
		r.Warn(o.Get("material"), "a sandwich hull is taken as solid laminate: it radiates from a lower frequency on, the band is wider")
	}
	o.Done()
	return h
}

// standing reads how an engine stands.
func (r *reader) standing(o *decode.Object, e *path.Engine) {
	e.Mass, _ = o.Value("mass", decode.Positive, quantity.Mass)
	e.Mounts = r.mounts(o.Get("mounts"), o.Path+".mounts")
	e.FootVelocity = r.Bands(o.Get("foot_velocity"), o.Path+".foot_velocity")
	if n := o.Get("bridges"); n != nil {
		b := r.Object(n, o.Path+".bridges")
		e.Bridges = structure.Bridges{Shaft: b.Word("shaft", shaftKinds...), Exhaust: b.Word("exhaust", exhaustKinds...), Pipes: b.Word("pipes", pipeKinds...)}
		b.Done()
		if e.Mounts.Kind == structure.Soft && e.Bridges.Shaft == "rigid" {
			r.Warn(b.Get("shaft"), "%s: soft mounts with a rigid shaft: it carries the thrust through them and goes out of line", b.Path)
		}
	}
	if n := o.Get("bed"); n != nil {
		b := r.Object(n, o.Path+".bed")
		e.Bed.Depth, _ = b.Value("depth", decode.UpTo(2), quantity.Length)
		e.Bed.Width, _ = b.Value("width", decode.UpTo(1), quantity.Length)
		e.Bed.Cap, _ = b.Value("cap", decode.UpTo(0.5), quantity.Length)
		b.Done()
	}
}

// mounts reads kind, count and one figure of their softness; figures that disagree are refused.
func (r *reader) mounts(n *decode.Node, what string) path.Mounts {
	if n == nil {
		return path.Mounts{}
	}
	o := r.Object(n, what)
	m := path.Mounts{Kind: structure.Kind(o.Word("kind", structure.Kinds...))}
	m.Deflection, _ = o.Value("deflection", decode.UpTo(structure.MostDeflection), quantity.Length)
	m.Stiffness, _ = o.Value("stiffness", decode.Positive, quantity.Stiffness)
	m.Frequency, _ = o.Value("frequency", decode.Limits{Min: 0, Max: 100, OpenMin: true}, quantity.Frequency)
	m.Count, _ = r.Whole(o.Get("count"), what+" count", 2, mostMounts)
	o.Done()
	for _, key := range []string{"deflection", "stiffness", "frequency"} {
		if v := o.Get(key); v != nil && m.Kind == structure.Rigid {
			r.Wrong(v, "leave it out, or say kind: rubber", "%s: rigid feet have no %s", what, key)
		}
	}
	if m.Deflection > 0 && m.Frequency > 0 {
		by := structure.DeflectionFrequency(m.Deflection, structure.RubberStiffening)
		if math.Max(by/m.Frequency, m.Frequency/by) > disagreement {
			r.Wrong(o.Get("frequency"), "keep one of the two", "%s: a deflection of %s gives %.1f Hz, not %s", what,
				quantity.Format(m.Deflection, quantity.Length, quantity.Metric), by, quantity.Format(m.Frequency, quantity.Frequency, quantity.Metric))
		}
	}
	return m
}

// plating reads what a space's hull plates carry.
func (r *reader) plating(o *decode.Object) (p path.Plating) {
	n := o.Get("structure")
	if n == nil {
		return p
	}
	s := r.Object(n, o.Path+".structure")
	if lined, stated := s.Flag("lined"); stated {
		p.Lined = &lined
	}
	p.Floating = structure.Floating(s.Word("floating", floatingWords...))
	p.Damped, _ = s.Flag("damped")
	p.Plate, _ = s.Value("plate", decode.UpTo(0.2), quantity.Length)
	s.Done()
	return p
}

// MountsSchema is that of what an engine stands on.
func MountsSchema() *jsonschema.Schema {
	return schema.Mapping("what it stands on", schema.Fields{
		"kind": schema.Words("kind of mount", structure.Kinds...), "deflection": schema.Described("static, under the load", schema.Quantity(quantity.Length)),
		"stiffness": schema.Described("of each, static", schema.Quantity(quantity.Stiffness)), "frequency": schema.Described("natural, vertical", schema.Quantity(quantity.Frequency)),
		"count": schema.Whole("number of mounts", 2, mostMounts),
	})
}

// PlatingSchema is that of the plates of a wall.
func PlatingSchema() *jsonschema.Schema {
	yes := &jsonschema.Schema{Types: []string{"boolean", "string"}}
	return schema.Mapping("what the hull's plates of the space carry", schema.Fields{
		"lined": schema.Described("dry lining on battens", yes), "damped": schema.Described("a damping layer", yes),
		"floating": {Types: []string{"boolean", "string"}, Description: "floating lining: no, floor, or yes for floor and walls"}, "plate": schema.Quantity(quantity.Length),
	})
}

// HullSchema is that of what the hull is built of.
func HullSchema() *jsonschema.Schema {
	return schema.Mapping("what the boat is built of", schema.Fields{"material": schema.Words("hull", hullWords...), "plate": schema.Described("of the engine space", schema.Quantity(quantity.Length))})
}
