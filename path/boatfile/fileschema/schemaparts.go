package fileschema

import (
	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"hushwake/path/structure"
)

func engineSchema() *jsonschema.Schema {
	duty := schema.Mapping("a power at a speed", schema.Fields{"power!": schema.Quantity(quantity.Power), "speed!": schema.Quantity(quantity.RotationalSpeed)})
	running := &jsonschema.Schema{AnyOf: []*jsonschema.Schema{schema.Partial(duty), schema.Words("silences the engine", "stopped")}}
	return schema.Mapping("an engine", schema.Fields{
		"cycle!": schema.Words("working cycle", "two-stroke", "four-stroke"), "cylinders!": schema.Whole("number of cylinders", 1, 24),
		"arrangement": schema.Words("how the cylinders stand", "inline", "vee"), "aspiration": schema.Words("how air gets in", "natural", "turbocharged", "blower"),
		"displacement": schema.Quantity(quantity.Volume), "bore": schema.Quantity(quantity.Length), "stroke": schema.Quantity(quantity.Length),
		"rated!": duty, "running": schema.Described("the duty that is predicted", running),
		"back_pressure_limit": schema.Described("at rated, from the engine's own manual", schema.Quantity(quantity.Pressure)),
		"cooling":             schema.Words("of the engine itself", "water", "air"),
		"in":                  schema.Text("the space it stands in"), "enclosure": schema.Text("a name from enclosures, or none"),
		"exhaust_level": schema.Ref("bands"), "casing_level": schema.Ref("bands"), "load": loadSchema(), "propeller": boatfile.PropellerSchema(),
		"fuel": schema.Words("fuel", "diesel", "petrol", "gas"), "at": schema.At(),
		"exhaust":          schema.Mapping("at rated", schema.Fields{"flow": schema.Quantity(quantity.MassFlow), "temperature": schema.Quantity(quantity.Temperature), "air_fuel_ratio": schema.Number("mass of air per mass of fuel")}),
		"fuel_consumption": schema.Quantity(quantity.Consumption, quantity.VolumeFlow), "firing_order": schema.List(schema.Whole("cylinder", 1, 24), 1, 24),
		"bank_angle": schema.Quantity(quantity.Angle), "banks": schema.Whole("banks with a pipe each", 1, 2),
		"mass": schema.Described("with gearbox", schema.Quantity(quantity.Mass)), "mounts": boatfile.MountsSchema(), "foot_velocity": schema.Described("free, re 5e-8 m/s", schema.Ref("bands")),
		"bridges":   schema.Mapping("what leads past the mounts", schema.Fields{"shaft": schema.Words("shaft", structure.BridgeKinds("shaft")...), "exhaust": schema.Words("exhaust", structure.BridgeKinds("exhaust")...), "pipes": schema.Words("pipes and cables", structure.BridgeKinds("pipes")...)}),
		"bed":       schema.Mapping("the girder that the feet stand on", schema.Fields{"depth": schema.Quantity(quantity.Length), "width": schema.Quantity(quantity.Length), "cap": schema.Quantity(quantity.Length)}),
		"generator": schema.Mapping("the electrical end", schema.Fields{"power": schema.Quantity(quantity.Power), "cooling": schema.Words("of the alternator", "air", "water")}),
	})
}

func loadSchema() *jsonschema.Schema {
	return &jsonschema.Schema{Description: "load law, with the exponent of power over speed of a propeller", AnyOf: []*jsonschema.Schema{
		schema.Words("", "propeller", "constant-speed"), {Type: "string", Pattern: `^propeller \d(\.\d+)?$`}}}
}

func spaceSchema() *jsonschema.Schema {
	faces := schema.Fields{}
	for _, d := range path.Sides {
		faces[d.Name] = schema.NoneOr(buildUpSchema())
	}
	return schema.Mapping("a room", schema.Fields{"faces": schema.Mapping("what its sides are made of; none = open", faces), "at": schema.Described("aft, port, lowest corner", schema.At()), "size": schema.Lengths("length, width, height", 3, 3), "lining": schema.Text("a surface, or a thickness and a material"), "structure": boatfile.PlatingSchema()})
}

func buildUpSchema() *jsonschema.Schema {
	layer := schema.Text("such as 4 mm steel, 5 kg/m2 limp mat, 50 mm air gap")
	return &jsonschema.Schema{Description: "layers from one side to the other", AnyOf: []*jsonschema.Schema{schema.List(layer, 1, 20), layer}}
}

func partitionSchema() *jsonschema.Schema {
	return schema.Mapping("what separates two spaces", schema.Fields{
		"between!": schema.List(schema.Text("a space or outside"), 2, 2), "name": schema.Text("what it is called"), "area": schema.Quantity(quantity.Area),
		"build_up": buildUpSchema(), "open_area": schema.Quantity(quantity.Area), "at": schema.At(), "facing": schema.Words("way it faces", boatfile.Facings...),
	})
}

func enclosureSchema() *jsonschema.Schema {
	duct := schema.Mapping("a lined duct before the opening", schema.Fields{"length": schema.Quantity(quantity.Length), "size": schema.Lengths("inside", 2, 2), "lining": schema.Text("such as 25 mm foam"), "bends": schema.Whole("bends", 0, 20),
		"insertion_loss": schema.Described("of a silencer in it", schema.Ref("bands"))})
	opening := schema.Mapping("a hole", schema.Fields{"role": schema.Words("what it is for", "inlet", "outlet", "leak"), "area": schema.Quantity(quantity.Area), "lined_duct": schema.NoneOr(duct),
		"to": schema.Text("the space that its mouth lies in, or outside"), "at": schema.Described("of the mouth", schema.At()), "facing": schema.Words("way the mouth looks", boatfile.Facings...)})
	point := schema.List(&jsonschema.Schema{AnyOf: []*jsonschema.Schema{schema.Quantity(quantity.VolumeFlow), schema.Quantity(quantity.Pressure)}}, 2, 2)
	pipe := schema.Mapping("the pipe that brings combustion air from elsewhere", schema.Fields{"bore": schema.Quantity(quantity.Length), "length": schema.Quantity(quantity.Length), "bends": schema.Whole("bends", 0, 20),
		"to": schema.Text("the space that its mouth lies in, or outside"), "at": schema.Described("of the mouth", schema.At()), "facing": schema.Words("way the mouth looks", boatfile.Facings...), "insertion_loss": schema.Described("of a silencer in it", schema.Ref("bands"))})
	return schema.Mapping("a box round an engine", schema.Fields{
		"size": schema.Lengths("inside length, width, height", 3, 3), "build_up": buildUpSchema(), "lining": schema.Text("such as 50 mm mineral wool"),
		"heat": schema.Quantity(quantity.Power), "own_air_pipe": {Description: "combustion air has its own pipe", AnyOf: []*jsonschema.Schema{{Types: []string{"boolean", "string"}}, pipe}},
		"fan": schema.NoneOr(schema.Mapping("a fan", schema.Fields{"flow": schema.Quantity(quantity.VolumeFlow), "at_pressure": schema.Quantity(quantity.Pressure), "curve": schema.Described("flow and pressure of each point", schema.List(point, 2, 50)),
			"sound_power": schema.Quantity(quantity.LevelA), "running": schema.Words("it stands still", "stopped"), "ignition_protected": {Types: []string{"boolean", "string"}}})),
		"door": schema.NoneOr(schema.Mapping("lid or door", schema.Fields{"seal_length": schema.Quantity(quantity.Length), "gap": schema.Quantity(quantity.Length)})), "gap": schema.Described("between engine and walls", schema.Quantity(quantity.Length)),
		"limit":    schema.Described("what the air in it may reach", schema.Quantity(quantity.Temperature)),
		"openings": schema.List(opening, 0, 0), "mounts": schema.Described("of the box itself", boatfile.MountsSchema()),
	})
}

func listenerSchema() *jsonschema.Schema {
	return schema.Mapping("a place where a person hears", schema.Fields{"in": schema.Text("a space"), "at!": schema.At(), "hours": schema.Quantity(quantity.Duration), "limit": schema.Quantity(quantity.LevelA),
		"background": schema.Mapping("heard there without the engines", schema.Fields{"level": schema.Quantity(quantity.LevelA), "bands": schema.Ref("bands"), "when": schema.Text("in which condition")})})
}

func layoutSchema() *jsonschema.Schema {
	outlet := schema.Mapping("where the line ends", schema.Fields{"at": schema.At(), "pointing": schema.Words("way it points", "up", "aft", "forward", "port", "starboard", "down"), "bore": schema.Quantity(quantity.Length), "below_waterline": schema.Described("depth of the middle of the mouth", schema.Quantity(quantity.Length)), "waves": schema.Described("standard deviation of the level at the mouth", schema.Quantity(quantity.Length))})
	exhaust := schema.Mapping("an exhaust line; the line is required where the layout is not like another", schema.Fields{"line": schema.Ref("line"), "outlet": outlet})
	change := schema.Partial(partitionSchema())
	changes := schema.Mapping("overrides for this layout only", schema.Fields{
		"spaces": schema.Named("by name", schema.Ref("space")), "enclosures": schema.Named("by name", schema.Partial(enclosureSchema())),
		"engines": schema.Named("by name", schema.Partial(engineSchema())), "partitions": schema.List(change, 0, 0),
	})
	alternative := schema.Mapping("an alternative", schema.Fields{"name": schema.Text("what it is called"), "price": schema.Price(), "exhausts": schema.Named("by engine, or bench", exhaust), "changes": changes,
		"promised": schema.Mapping("for the whole line, at the engine, rated, hot", schema.Fields{"back_pressure": schema.Stated(quantity.Pressure)}),
		"like":     schema.Text("the layout that this one is like, but for what is said here"), "replace": schema.Named("element: what stands in its place", elements()),
		"remove": schema.OneOrMore(schema.Text("an element")), "insert": schema.OneOrMore(insert())})
	alternative.AnyOf = []*jsonschema.Schema{{Required: []string{"exhausts"}}, {Required: []string{"like"}}}
	return alternative
}

func elements() *jsonschema.Schema { return schema.NoneOr(schema.OneOrMore(schema.Ref("element"))) }

func insert() *jsonschema.Schema {
	return schema.Mapping("elements beside another", schema.Fields{"after": schema.Text("an element"), "before": schema.Text("an element"), "elements!": elements()})
}

func quoteSchema() *jsonschema.Schema {
	f := lines.LossFields()
	texts := &jsonschema.Schema{AnyOf: []*jsonschema.Schema{schema.List(schema.Text(""), 0, 0), schema.Text("")}}
	for k, v := range (schema.Fields{"price": schema.Price(), "mass": schema.Quantity(quantity.Mass), "lead_time": schema.Quantity(quantity.Duration), "claim": schema.Text("the maker's words"), "test": schema.Text("the test it was measured by"),
		"includes": texts, "extras": schema.List(schema.Mapping("what is not in the price", schema.Fields{"what": schema.Text("what"), "price": schema.Price()}), 0, 0)}) {
		f[k] = v
	}
	return schema.Mapping("an offer", f)
}

func readingSchema() *jsonschema.Schema {
	any := schema.Quantity(quantity.LevelA, quantity.LevelC, quantity.Level)
	running := schema.Mapping("the duty it was taken at", schema.Fields{"engine": schema.Text("an engine"), "speed": schema.Quantity(quantity.RotationalSpeed), "power": schema.Quantity(quantity.Power)})
	return schema.Mapping("something measured on board", schema.Fields{
		"listener": schema.Text("a listener"), "layout": schema.Text("a layout"), "engine": schema.Text("an engine"), "space": schema.Text("a space or enclosure"),
		"level": schema.Stated(quantity.LevelA, quantity.LevelC, quantity.Level), "bands": schema.Ref("bands"), "weighting": schema.Words("weighting", "A", "C"), "plus_minus": any, "background": any, "instrument": schema.Text("what it was read with"),
		"loudspeaker": schema.Mapping("a test with a loudspeaker in the engine space", schema.Fields{"room": levelOrBands("there, engine stopped", quantity.LevelA), "seat": levelOrBands("at the seat, engine stopped", quantity.LevelA), "running": levelOrBands("in the engine space with the engine", quantity.LevelA)}),
		"mount":       schema.Mapping("vibration by an accelerometer at a mount", schema.Fields{"above": levelOrBands("on the engine's foot", quantity.Level), "below": levelOrBands("on the bed", quantity.Level)}),
		"open":        {AnyOf: []*jsonschema.Schema{schema.List(schema.Text(""), 0, 0), schema.Text("")}}, "back_pressure": schema.Stated(quantity.Pressure), "temperature": schema.Stated(quantity.Temperature), "running": running,
		"recording": schema.Text("a recording, WAV or FLAC, beside this file"),
		"strike":    {Types: []string{"boolean", "string"}, Description: "left out, and shown as struck"},
	})
}

func levelOrBands(desc string, d quantity.Dim) *jsonschema.Schema {
	return &jsonschema.Schema{Description: desc, AnyOf: []*jsonschema.Schema{schema.Quantity(d), schema.Ref("bands")}}
}

func passageSchema() *jsonschema.Schema {
	return schema.Mapping("the trip", schema.Fields{"hours": schema.Quantity(quantity.Duration), "watch": schema.Quantity(quantity.Duration), "fuel_price": schema.Quantity(quantity.PerVolume)})
}

func materialSchema() *jsonschema.Schema {
	return schema.Mapping("a material of your own", schema.Fields{
		"name!": schema.Text("what build-ups call it"), "density": schema.Quantity(quantity.Density), "critical": schema.Number("critical frequency times thickness, Hz m"), "damping": schema.Number("loss factor"),
		"absorption": schema.List(schema.Number(""), 9, 9), "thickness": schema.Quantity(quantity.Length), "conductivity": schema.Number("W/(m K), as lagging or in the wall of an enclosure"), "max_temperature": schema.Quantity(quantity.Temperature),
		"price": schema.Price(), "source": schema.Text("where its figures are from"),
	})
}

func edgeSchema() *jsonschema.Schema {
	return schema.Mapping("what shields the outlet from a listener", schema.Fields{"name": schema.Text("what it is called"), "from": schema.At(), "to": schema.At()})
}

func benchSchema() *jsonschema.Schema {
	return schema.Mapping("a uniform known medium instead of an engine", schema.Fields{
		"gas": schema.Words("medium", "air", "exhaust", "stated"), "speed_of_sound": schema.Quantity(quantity.Speed), "density": schema.Quantity(quantity.Density), "air_fuel_ratio": schema.Number("of exhaust"),
		"temperature": schema.Quantity(quantity.Temperature), "mass_flow": schema.Quantity(quantity.MassFlow), "walls": schema.Words("walls", "viscothermal", "lossless"),
		"corrections": schema.Words("end and step corrections", "full", "none"), "method": schema.Words("method", "modes", "plane"),
	})
}

func weatherSchema() *jsonschema.Schema {
	return schema.Mapping("the air outdoors and the sea", schema.Fields{"air": schema.Quantity(quantity.Temperature), "sea": schema.Quantity(quantity.Temperature), "pressure": schema.Quantity(quantity.Pressure), "humidity": schema.Quantity(quantity.Fraction)})
}
