package boatfile

import (
	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
)

func engineSchema() *jsonschema.Schema {
	duty := mappingSchema("a power at a speed", fields{"power!": quantitySchema(quantity.Power), "speed!": quantitySchema(quantity.RotationalSpeed)})
	running := &jsonschema.Schema{AnyOf: []*jsonschema.Schema{partial(duty), wordsSchema("silences the engine", "stopped")}}
	return mappingSchema("an engine", fields{
		"cycle!": wordsSchema("working cycle", "two-stroke", "four-stroke"), "cylinders!": wholeSchema("number of cylinders", 1, 24),
		"arrangement": wordsSchema("how the cylinders stand", "inline", "vee"), "aspiration": wordsSchema("how air gets in", "natural", "turbocharged", "blower"),
		"displacement": quantitySchema(quantity.Volume), "bore": quantitySchema(quantity.Length), "stroke": quantitySchema(quantity.Length),
		"rated!": duty, "running": described("the duty that is predicted", running),
		"back_pressure_limit": described("at rated, from the engine's own manual", quantitySchema(quantity.Pressure)),
		"cooling":             wordsSchema("of the engine itself", "water", "air"),
		"in":                  textSchema("the space it stands in"), "enclosure": textSchema("a name from enclosures, or none"),
		"exhaust_level": ref("bands"), "casing_level": ref("bands"), "load": loadSchema(), "propeller": propellerSchema(),
		"fuel": wordsSchema("fuel", "diesel", "petrol", "gas"), "at": atSchema(),
		"exhaust":          mappingSchema("at rated", fields{"flow": quantitySchema(quantity.MassFlow), "temperature": quantitySchema(quantity.Temperature), "air_fuel_ratio": numberSchema("mass of air per mass of fuel")}),
		"fuel_consumption": quantitySchema(quantity.Consumption, quantity.VolumeFlow), "firing_order": listSchema(wholeSchema("cylinder", 1, 24), 1, 24),
		"bank_angle": quantitySchema(quantity.Angle), "banks": wholeSchema("banks with a pipe each", 1, 2),
		"mass": described("with gearbox", quantitySchema(quantity.Mass)), "mounts": mountsSchema(), "foot_velocity": described("free, re 5e-8 m/s", ref("bands")),
		"bridges":   mappingSchema("what leads past the mounts", fields{"shaft": wordsSchema("shaft", shaftKinds...), "exhaust": wordsSchema("exhaust", exhaustKinds...), "pipes": wordsSchema("pipes and cables", pipeKinds...)}),
		"bed":       mappingSchema("the girder that the feet stand on", fields{"depth": quantitySchema(quantity.Length), "width": quantitySchema(quantity.Length), "cap": quantitySchema(quantity.Length)}),
		"generator": mappingSchema("the electrical end", fields{"power": quantitySchema(quantity.Power), "cooling": wordsSchema("of the alternator", "air", "water")}),
	})
}

func loadSchema() *jsonschema.Schema {
	return &jsonschema.Schema{Description: "load law, with the exponent of power over speed of a propeller", AnyOf: []*jsonschema.Schema{
		wordsSchema("", "propeller", "constant-speed"), {Type: "string", Pattern: `^propeller \d(\.\d+)?$`}}}
}

func spaceSchema() *jsonschema.Schema {
	faces := fields{}
	for _, d := range path.Sides {
		faces[d.Name] = noneOr(buildUpSchema())
	}
	return mappingSchema("a room", fields{"faces": mappingSchema("what its sides are made of; none = open", faces), "at": described("aft, port, lowest corner", atSchema()), "size": lengthsSchema("length, width, height", 3, 3), "lining": textSchema("a surface, or a thickness and a material"), "structure": platingSchema()})
}

func buildUpSchema() *jsonschema.Schema {
	layer := textSchema("such as 4 mm steel, 5 kg/m2 limp mat, 50 mm air gap")
	return &jsonschema.Schema{Description: "layers from one side to the other", AnyOf: []*jsonschema.Schema{listSchema(layer, 1, 20), layer}}
}

func partitionSchema() *jsonschema.Schema {
	return mappingSchema("what separates two spaces", fields{
		"between!": listSchema(textSchema("a space or outside"), 2, 2), "name": textSchema("what it is called"), "area": quantitySchema(quantity.Area),
		"build_up": buildUpSchema(), "open_area": quantitySchema(quantity.Area), "at": atSchema(), "facing": wordsSchema("way it faces", facings...),
	})
}

func enclosureSchema() *jsonschema.Schema {
	duct := mappingSchema("a lined duct before the opening", fields{"length": quantitySchema(quantity.Length), "size": lengthsSchema("inside", 2, 2), "lining": textSchema("such as 25 mm foam"), "bends": wholeSchema("bends", 0, 20),
		"insertion_loss": described("of a silencer in it", ref("bands"))})
	opening := mappingSchema("a hole", fields{"role": wordsSchema("what it is for", "inlet", "outlet", "leak"), "area": quantitySchema(quantity.Area), "lined_duct": noneOr(duct),
		"to": textSchema("the space that its mouth lies in, or outside"), "at": described("of the mouth", atSchema()), "facing": wordsSchema("way the mouth looks", facings...)})
	point := listSchema(&jsonschema.Schema{AnyOf: []*jsonschema.Schema{quantitySchema(quantity.VolumeFlow), quantitySchema(quantity.Pressure)}}, 2, 2)
	pipe := mappingSchema("the pipe that brings combustion air from elsewhere", fields{"bore": quantitySchema(quantity.Length), "length": quantitySchema(quantity.Length), "bends": wholeSchema("bends", 0, 20),
		"to": textSchema("the space that its mouth lies in, or outside"), "at": described("of the mouth", atSchema()), "facing": wordsSchema("way the mouth looks", facings...), "insertion_loss": described("of a silencer in it", ref("bands"))})
	return mappingSchema("a box round an engine", fields{
		"size": lengthsSchema("inside length, width, height", 3, 3), "build_up": buildUpSchema(), "lining": textSchema("such as 50 mm mineral wool"),
		"heat": quantitySchema(quantity.Power), "own_air_pipe": {Description: "combustion air has its own pipe", AnyOf: []*jsonschema.Schema{{Types: []string{"boolean", "string"}}, pipe}},
		"fan": noneOr(mappingSchema("a fan", fields{"flow": quantitySchema(quantity.VolumeFlow), "at_pressure": quantitySchema(quantity.Pressure), "curve": described("flow and pressure of each point", listSchema(point, 2, 50)),
			"sound_power": quantitySchema(quantity.LevelA), "running": wordsSchema("it stands still", "stopped"), "ignition_protected": {Types: []string{"boolean", "string"}}})),
		"door": noneOr(mappingSchema("lid or door", fields{"seal_length": quantitySchema(quantity.Length), "gap": quantitySchema(quantity.Length)})), "gap": described("between engine and walls", quantitySchema(quantity.Length)),
		"limit":    described("what the air in it may reach", quantitySchema(quantity.Temperature)),
		"openings": listSchema(opening, 0, 0), "mounts": described("of the box itself", mountsSchema()),
	})
}

func noneOr(s *jsonschema.Schema) *jsonschema.Schema {
	return &jsonschema.Schema{Description: s.Description, AnyOf: []*jsonschema.Schema{s, wordsSchema("there is none", "none")}}
}

func listenerSchema() *jsonschema.Schema {
	return mappingSchema("a place where a person hears", fields{"in": textSchema("a space"), "at!": atSchema(), "hours": quantitySchema(quantity.Duration), "limit": quantitySchema(quantity.LevelA),
		"background": mappingSchema("heard there without the engines", fields{"level": quantitySchema(quantity.LevelA), "bands": ref("bands"), "when": textSchema("in which condition")})})
}

func layoutSchema() *jsonschema.Schema {
	outlet := mappingSchema("where the line ends", fields{"at": atSchema(), "pointing": wordsSchema("way it points", "up", "aft", "forward", "port", "starboard", "down"), "bore": quantitySchema(quantity.Length), "below_waterline": described("depth of the middle of the mouth", quantitySchema(quantity.Length)), "waves": described("standard deviation of the level at the mouth", quantitySchema(quantity.Length))})
	exhaust := mappingSchema("an exhaust line; the line is required where the layout is not like another", fields{"line": ref("line"), "outlet": outlet})
	change := partial(partitionSchema())
	changes := mappingSchema("overrides for this layout only", fields{
		"spaces": namedSchema("by name", ref("space")), "enclosures": namedSchema("by name", partial(enclosureSchema())),
		"engines": namedSchema("by name", partial(engineSchema())), "partitions": listSchema(change, 0, 0),
	})
	alternative := mappingSchema("an alternative", fields{"name": textSchema("what it is called"), "price": priceSchema(), "exhausts": namedSchema("by engine, or bench", exhaust), "changes": changes,
		"promised": mappingSchema("for the whole line, at the engine, rated, hot", fields{"back_pressure": statedSchema(quantity.Pressure)}),
		"like":     textSchema("the layout that this one is like, but for what is said here"), "replace": namedSchema("element: what stands in its place", elements()),
		"remove": oneOrMore(textSchema("an element")), "insert": oneOrMore(insert())})
	alternative.AnyOf = []*jsonschema.Schema{{Required: []string{"exhausts"}}, {Required: []string{"like"}}}
	return alternative
}

func oneOrMore(s *jsonschema.Schema) *jsonschema.Schema {
	return &jsonschema.Schema{AnyOf: []*jsonschema.Schema{s, listSchema(s, 0, 0)}}
}

func elements() *jsonschema.Schema { return noneOr(oneOrMore(ref("element"))) }

func insert() *jsonschema.Schema {
	return mappingSchema("elements beside another", fields{"after": textSchema("an element"), "before": textSchema("an element"), "elements!": elements()})
}

func lossFields() fields {
	basis := mappingSchema("the gas that the pressure drop holds for", fields{"gas": wordsSchema("gas", "air", "exhaust"), "temperature": quantitySchema(quantity.Temperature), "at": wordsSchema("compared at", "equal mass", "equal volume", "unknown")})
	level := mappingSchema("a promised level", fields{"level": statedSchema(quantity.LevelA), "distance": quantitySchema(quantity.Length), "angle": quantitySchema(quantity.Angle), "load": textSchema("at which load")})
	db := statedSchema(quantity.Level)
	loss := &jsonschema.Schema{Description: "octave bands or one overall figure", AnyOf: []*jsonschema.Schema{ref("bands"), db, mappingSchema("", fields{"overall": db, "bands": ref("bands")})}}
	return fields{"insertion_loss": loss, "pressure_drop": statedSchema(quantity.Pressure), "at_flow": quantitySchema(quantity.MassFlow, quantity.VolumeFlow), "at_temperature": quantitySchema(quantity.Temperature), "pressure_basis": basis,
		"length": quantitySchema(quantity.Length), "diameter": quantitySchema(quantity.Length), "bore": quantitySchema(quantity.Length), "level": level}
}

func quoteSchema() *jsonschema.Schema {
	f := lossFields()
	texts := &jsonschema.Schema{AnyOf: []*jsonschema.Schema{listSchema(textSchema(""), 0, 0), textSchema("")}}
	for k, v := range (fields{"price": priceSchema(), "mass": quantitySchema(quantity.Mass), "lead_time": quantitySchema(quantity.Duration), "claim": textSchema("the maker's words"), "test": textSchema("the test it was measured by"),
		"includes": texts, "extras": listSchema(mappingSchema("what is not in the price", fields{"what": textSchema("what"), "price": priceSchema()}), 0, 0)}) {
		f[k] = v
	}
	return mappingSchema("an offer", f)
}

func readingSchema() *jsonschema.Schema {
	any := quantitySchema(quantity.LevelA, quantity.LevelC, quantity.Level)
	running := mappingSchema("the duty it was taken at", fields{"engine": textSchema("an engine"), "speed": quantitySchema(quantity.RotationalSpeed), "power": quantitySchema(quantity.Power)})
	return mappingSchema("something measured on board", fields{
		"listener": textSchema("a listener"), "layout": textSchema("a layout"), "engine": textSchema("an engine"), "space": textSchema("a space or enclosure"),
		"level": statedSchema(quantity.LevelA, quantity.LevelC, quantity.Level), "bands": ref("bands"), "weighting": wordsSchema("weighting", "A", "C"), "plus_minus": any, "background": any, "instrument": textSchema("what it was read with"),
		"loudspeaker": mappingSchema("a test with a loudspeaker in the engine space", fields{"room": levelOrBands("there, engine stopped", quantity.LevelA), "seat": levelOrBands("at the seat, engine stopped", quantity.LevelA), "running": levelOrBands("in the engine space with the engine", quantity.LevelA)}),
		"mount":       mappingSchema("vibration by an accelerometer at a mount", fields{"above": levelOrBands("on the engine's foot", quantity.Level), "below": levelOrBands("on the bed", quantity.Level)}),
		"open":        {AnyOf: []*jsonschema.Schema{listSchema(textSchema(""), 0, 0), textSchema("")}}, "back_pressure": statedSchema(quantity.Pressure), "temperature": statedSchema(quantity.Temperature), "running": running,
		"recording": textSchema("a recording, WAV or FLAC, beside this file"),
		"strike":    {Types: []string{"boolean", "string"}, Description: "left out, and shown as struck"},
	})
}

func levelOrBands(desc string, d quantity.Dim) *jsonschema.Schema {
	return &jsonschema.Schema{Description: desc, AnyOf: []*jsonschema.Schema{quantitySchema(d), ref("bands")}}
}

func passageSchema() *jsonschema.Schema {
	return mappingSchema("the trip", fields{"hours": quantitySchema(quantity.Duration), "watch": quantitySchema(quantity.Duration), "fuel_price": quantitySchema(quantity.PerVolume)})
}

func materialSchema() *jsonschema.Schema {
	return mappingSchema("a material of your own", fields{
		"name!": textSchema("what build-ups call it"), "density": quantitySchema(quantity.Density), "critical": numberSchema("critical frequency times thickness, Hz m"), "damping": numberSchema("loss factor"),
		"absorption": listSchema(numberSchema(""), 9, 9), "thickness": quantitySchema(quantity.Length), "conductivity": numberSchema("W/(m K), as lagging or in the wall of an enclosure"), "max_temperature": quantitySchema(quantity.Temperature),
		"price": priceSchema(), "source": textSchema("where its figures are from"),
	})
}

func edgeSchema() *jsonschema.Schema {
	return mappingSchema("what shields the outlet from a listener", fields{"name": textSchema("what it is called"), "from": atSchema(), "to": atSchema()})
}

func benchSchema() *jsonschema.Schema {
	return mappingSchema("a uniform known medium instead of an engine", fields{
		"gas": wordsSchema("medium", "air", "exhaust", "stated"), "speed_of_sound": quantitySchema(quantity.Speed), "density": quantitySchema(quantity.Density), "air_fuel_ratio": numberSchema("of exhaust"),
		"temperature": quantitySchema(quantity.Temperature), "mass_flow": quantitySchema(quantity.MassFlow), "walls": wordsSchema("walls", "viscothermal", "lossless"),
		"corrections": wordsSchema("end and step corrections", "full", "none"), "method": wordsSchema("method", "modes", "plane"),
	})
}

func weatherSchema() *jsonschema.Schema {
	return mappingSchema("the air outdoors and the sea", fields{"air": quantitySchema(quantity.Temperature), "sea": quantitySchema(quantity.Temperature), "pressure": quantitySchema(quantity.Pressure), "humidity": quantitySchema(quantity.Fraction)})
}
