package boatfile

import (
	"slices"
	"strings"
	"sync"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path/boatfile/quantity"
)

// numberPattern is how every quantity begins: a number or a fraction; a unit follows.
const numberPattern = `^\s*[-+−]?\s*(\d+(\.\d*)?|\.\d+|[½¼¾⅛⅜⅝⅞⅓⅔]).*[^\d.\s]`

// ref points at a definition.
func ref(name string) *jsonschema.Schema { return &jsonschema.Schema{Ref: "#/$defs/" + name} }

// orUnknown lets the owner say that he doesn't know.
func orUnknown(s *jsonschema.Schema) *jsonschema.Schema {
	return &jsonschema.Schema{Description: s.Description, AnyOf: []*jsonschema.Schema{s, ref("unknown")}}
}

// quantitySchema is a text that begins with a number and holds a unit of the given kinds.
func quantitySchema(dims ...quantity.Dim) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "string", Pattern: numberPattern, Description: quantity.KindsWanted(dims)}
}

// statedSchema is a quantity as it is promised or measured.
func statedSchema(dims ...quantity.Dim) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "string", Pattern: `\d.*[^\d.\s]`, Description: quantity.KindsWanted(dims) + "; also < 40, about 40, 30 to 50 with the unit"}
}

func described(text string, s *jsonschema.Schema) *jsonschema.Schema {
	out := *s
	if out.Description != "" {
		text += ": " + out.Description
	}
	out.Description = text
	return &out
}

func textSchema(desc string) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "string", Description: desc}
}

func numberSchema(desc string) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "number", Description: desc}
}

func wholeSchema(desc string, lo, hi float64) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "integer", Description: desc, Minimum: &lo, Maximum: &hi}
}

func wordsSchema(desc string, words ...string) *jsonschema.Schema {
	s := &jsonschema.Schema{Description: desc}
	for _, w := range words {
		s.Enum = append(s.Enum, w)
	}
	return s
}

func listSchema(item *jsonschema.Schema, lo, hi int) *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "array", Items: item, MinItems: &lo}
	if hi > 0 {
		s.MaxItems = &hi
	}
	return s
}

// fields is the keys of a mapping; a key that ends in ! is required, every other may be unknown.
type fields map[string]*jsonschema.Schema

func mappingSchema(desc string, f fields) *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "object", Description: desc, Properties: map[string]*jsonschema.Schema{}, AdditionalProperties: &jsonschema.Schema{Not: &jsonschema.Schema{}}}
	for key, v := range f {
		name, required := strings.CutSuffix(key, "!")
		if required {
			s.Required = append(s.Required, name)
			s.Properties[name] = v
		} else {
			s.Properties[name] = orUnknown(v)
		}
	}
	slices.Sort(s.Required)
	return s
}

// namedSchema is a mapping of names to one kind of thing.
func namedSchema(desc string, item *jsonschema.Schema) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "object", Description: desc, AdditionalProperties: item}
}

// partial is a mapping in which nothing is required: what changes may override.
func partial(s *jsonschema.Schema) *jsonschema.Schema {
	out := *s
	out.Required = nil
	return &out
}

// schemaOf is Schema, made once.
var schemaOf = sync.OnceValue(Schema)

// Schema is the JSON schema (draft 2020-12) of the boat file, for editors that complete and check
// while one types. It is less strict than Load, which also looks at values and names.
func Schema() *jsonschema.Schema {
	root := mappingSchema("a boat with its engine exhausts and the places where people hear them", fields{
		"boat": textSchema("one line that says what boat this is"), "currency": textSchema("three-letter code of the prices"),
		"engines":    namedSchema("engines by name", ref("engine")),
		"spaces":     namedSchema("rooms by name; outside always exists", ref("space")),
		"partitions": listSchema(ref("partition"), 0, 0), "enclosures": namedSchema("boxes round an engine, by name", ref("enclosure")),
		"listeners": namedSchema("places where people hear, by name", listenerSchema()),
		"layouts!":  listSchema(layoutSchema(), 1, 0), "quotes": namedSchema("what makers offered, by name", quoteSchema()),
		"readings": listSchema(readingSchema(), 0, 0), "passage": passageSchema(), "passages": passagesSchema(),
		"hatch": lengthsSchema("what must pass through it", 2, 2), "heel": described("worst heel", quantitySchema(quantity.Angle)),
		"materials": listSchema(materialSchema(), 0, 0), "edges": listSchema(edgeSchema(), 0, 0), "bench": benchSchema(), "weather": weatherSchema(), "hull": hullSchema(),
		"guessed": namedSchema("what is stated and only guessed, in words, and what each guess may add to a level, one standard deviation", quantitySchema(quantity.Level)),
	})
	root.Schema = "https://json-schema.org/draft/2020-12/schema"
	root.Title = "hushwake boat file"
	root.Defs = map[string]*jsonschema.Schema{
		"unknown": {Description: "the owner doesn't know", Enum: []any{"unknown", "don't know", "not known", "?", nil}},
		"engine":  engineSchema(), "space": spaceSchema(), "partition": partitionSchema(), "enclosure": enclosureSchema(),
		"line": listSchema(ref("element"), 0, 0), "element": elementSchema(), "bands": bandsSchema(), "option": optionSchema(),
	}
	return root
}

func bandsSchema() *jsonschema.Schema {
	band := &jsonschema.Schema{AnyOf: []*jsonschema.Schema{numberSchema(""), quantitySchema(quantity.Level)}}
	nine := described("31.5 Hz to 8 kHz, dB", listSchema(band, 9, 9))
	return &jsonschema.Schema{AnyOf: []*jsonschema.Schema{nine, mappingSchema("octave bands", fields{"bands!": nine})}}
}

func lengthsSchema(desc string, lo, hi int) *jsonschema.Schema {
	return described(desc, listSchema(quantitySchema(quantity.Length), lo, hi))
}

func atSchema() *jsonschema.Schema {
	return lengthsSchema("x forward from the transom, y to starboard, z up from the waterline", 3, 3)
}

func priceSchema() *jsonschema.Schema {
	return &jsonschema.Schema{Types: []string{"number", "string"}, Description: "an amount"}
}
