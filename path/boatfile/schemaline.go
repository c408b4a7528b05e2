package boatfile

import "github.com/google/jsonschema-go/jsonschema"

// elementFields gives the fields of each kind beside those that every kind has.
func elementFields() map[string]fields {
	l := quantitySchema(Length)
	bend := mappingSchema("a bend", fields{"angle": quantitySchema(Angle), "radius": l})
	bends := listSchema(bend, 0, 50)
	tube := mappingSchema("a tube through a baffle", fields{"bore": l, "wall": l, "reaches": lengthsSchema("how far it stands in the room before and after", 2, 2)})
	joint := &jsonschema.Schema{AnyOf: []*jsonschema.Schema{tube, listSchema(tube, 1, 20)}}
	perforate := func() fields {
		return fields{"bore": l, "chamber_bore": l, "length": l, "perforated": lengthsSchema("from and to, from the inlet end", 2, 2), "porosity": quantitySchema(Fraction),
			"hole": l, "tube_wall": l, "wall": l, "impedance": wordsSchema("gas at the holes", "still", "grazing")}
	}
	plugged, packed := perforate(), perforate()
	plugged["plug_at"] = l
	packed["packing"] = wordsSchema("how far the shell is packed", "whole", "part")
	packed["flow_resistivity"] = quantitySchema(FlowResistivity)
	packed["fibre"] = wordsSchema("fibre model", "allard-champoux", "delany-bazley", "miki")
	return map[string]fields{
		"pipe":    {"bore!": l, "length!": l, "wall": l, "roughness": l, "bends": bends},
		"bellows": {"bore": l, "length": l, "travel": l}, "elbow": {"bore": l, "angle": quantitySchema(Angle), "radius": l},
		"hose": {"bore!": l, "length!": l, "rise": l, "bends": bends, "max_temperature": quantitySchema(Temperature), "wall": l, "kind": wordsSchema("how its wall is made: fabric alone, or with a helix", "soft", "hard", "unknown")},
		"chamber": {"bore": l, "length": l, "rooms": lengthsSchema("lengths", 1, 10), "baffle": l, "joined_by": listSchema(joint, 1, 20), "inlet_extension": l, "outlet_extension": l,
			"tube_wall": l, "wall": l, "inlet_bore": l, "outlet_bore": l, "inlet_offset": l, "outlet_offset": l},
		"perforated": perforate(), "plugged": plugged, "packed": packed,
		"side_branch":     {"bore": l, "length": l, "neck": mappingSchema("neck of a resonator", fields{"bore": l, "length": l}), "volume": quantitySchema(Volume)},
		"parallel":        {"branches!": listSchema(ref("line"), 2, 10)},
		"water_injection": {"flow": quantitySchema(VolumeFlow), "temperature": quantitySchema(Temperature), "height_over_waterline": l, "bore": l},
		"lift_chamber": {"bore": l, "height": l, "water_level": l, "wall": l, "dip_tube": mappingSchema("the pipe that comes in", fields{"bore": l, "clearance": l}),
			"riser": mappingSchema("the pipe that leaves", fields{"bore": l, "rise": l})},
		"riser": {"bore": l, "rise": l, "length": l, "top_over_waterline": l}, "anti_siphon": {"top_over_waterline": l},
		"separator": {"bore": l, "height": l, "drain": mappingSchema("the water's way out", fields{"bore": l})},
		"given":     lossFields(), "quote": {"offer!": textSchema("the name of a quote")}, "one_of": {"offers!": listSchema(textSchema("the name of a quote"), 1, 20)},
	}
}

// commonFields are those of every element.
func commonFields() fields {
	lagging := mappingSchema("insulation", fields{"thickness": quantitySchema(Length), "material": textSchema("such as mineral wool")})
	return fields{"name": textSchema("what it is called"), "in": textSchema("the space its shell radiates into"), "material": textSchema("of the wall"),
		"mass": quantitySchema(Mass), "price": priceSchema(), "lagging": noneOr(lagging), "envelope": lengthsSchema("clear space: two cross sizes and a length", 2, 3),
		"clearance": quantitySchema(Length)}
}

// elementSchema is a mapping with one key, the kind.
func elementSchema() *jsonschema.Schema {
	one := 1
	s := &jsonschema.Schema{Type: "object", Description: "one element, manifold to outlet", MinProperties: &one, MaxProperties: &one,
		Properties: map[string]*jsonschema.Schema{}, AdditionalProperties: &jsonschema.Schema{Not: &jsonschema.Schema{}}}
	for kind, f := range elementFields() {
		for k, v := range commonFields() {
			f[k] = v
		}
		s.Properties[kind] = mappingSchema(kind, f)
	}
	name := textSchema("the name of a quote")
	s.Properties["quote"] = &jsonschema.Schema{AnyOf: []*jsonschema.Schema{name, s.Properties["quote"]}}
	s.Properties["one_of"] = &jsonschema.Schema{AnyOf: []*jsonschema.Schema{listSchema(name, 1, 20), s.Properties["one_of"]}}
	return s
}
