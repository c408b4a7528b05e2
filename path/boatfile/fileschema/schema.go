// Package fileschema is the JSON schema of a boat file: what the decoders read, for editors and for the list of controls.
package fileschema

import (
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"sync"

	"github.com/google/jsonschema-go/jsonschema"
)

// SchemaOf is Schema, made once.
var SchemaOf = sync.OnceValue(Schema)

// Schema is the JSON schema (draft 2020-12) of the boat file, for editors that complete and check
// while one types. It is less strict than Load, which also looks at values and names.
func Schema() *jsonschema.Schema {
	root := schema.Mapping("a boat with its engine exhausts and the places where people hear them", schema.Fields{
		"boat": schema.Text("one line that says what boat this is"), "currency": schema.Text("three-letter code of the prices"),
		"engines":    schema.Named("engines by name", schema.Ref("engine")),
		"spaces":     schema.Named("rooms by name; outside always exists", schema.Ref("space")),
		"partitions": schema.List(schema.Ref("partition"), 0, 0), "enclosures": schema.Named("boxes round an engine, by name", schema.Ref("enclosure")),
		"listeners": schema.Named("places where people hear, by name", listenerSchema()),
		"layouts!":  schema.List(layoutSchema(), 1, 0), "quotes": schema.Named("what makers offered, by name", quoteSchema()),
		"readings": schema.List(readingSchema(), 0, 0), "passage": passageSchema(), "passages": boatfile.PassagesSchema(),
		"hatch": schema.Lengths("what must pass through it", 2, 2), "heel": schema.Described("worst heel", schema.Quantity(quantity.Angle)),
		"materials": schema.List(materialSchema(), 0, 0), "edges": schema.List(edgeSchema(), 0, 0), "bench": benchSchema(), "weather": weatherSchema(), "hull": boatfile.HullSchema(),
	})
	root.Schema = "https://json-schema.org/draft/2020-12/schema"
	root.Title = "hushwake boat file"
	root.Defs = map[string]*jsonschema.Schema{
		"unknown": {Description: "the owner doesn't know", Enum: []any{"unknown", "don't know", "not known", "?", nil}},
		"engine":  engineSchema(), "space": spaceSchema(), "partition": partitionSchema(), "enclosure": enclosureSchema(),
		"line": schema.List(schema.Ref("element"), 0, 0), "element": lines.Schema(), "bands": bandsSchema(), "option": boatfile.OptionSchema(),
	}
	return root
}

func bandsSchema() *jsonschema.Schema {
	band := &jsonschema.Schema{AnyOf: []*jsonschema.Schema{schema.Number(""), schema.Quantity(quantity.Level)}}
	nine := schema.Described("31.5 Hz to 8 kHz, dB", schema.List(band, 9, 9))
	return &jsonschema.Schema{AnyOf: []*jsonschema.Schema{nine, schema.Mapping("octave bands", schema.Fields{"bands!": nine})}}
}
