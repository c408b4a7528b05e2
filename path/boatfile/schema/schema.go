// Package schema builds the JSON schema of a boat file from its parts: quantities, words, lists, mappings whose other keys may be
// unknown.
package schema

import (
	"slices"
	"strings"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path/boatfile/quantity"
)

// NumberPattern is how every quantity begins: a number or a fraction; a unit follows.
const NumberPattern = `^\s*[-+−]?\s*(\d+(\.\d*)?|\.\d+|[½¼¾⅛⅜⅝⅞⅓⅔]).*[^\d.\s]`

// Ref points at a definition.
func Ref(name string) *jsonschema.Schema { return &jsonschema.Schema{Ref: "#/$defs/" + name} }

// orUnknown lets the owner say that he doesn't know.
func orUnknown(s *jsonschema.Schema) *jsonschema.Schema {
	return &jsonschema.Schema{Description: s.Description, AnyOf: []*jsonschema.Schema{s, Ref("unknown")}}
}

// Quantity is a text that begins with a number and holds a unit of the given kinds.
func Quantity(dims ...quantity.Dim) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "string", Pattern: NumberPattern, Description: quantity.KindsWanted(dims)}
}

// Stated is a quantity as it is promised or measured.
func Stated(dims ...quantity.Dim) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "string", Pattern: `\d.*[^\d.\s]`, Description: quantity.KindsWanted(dims) + "; also < 40, about 40, 30 to 50 with the unit"}
}

// Described is a schema with words in front of its own.
func Described(text string, s *jsonschema.Schema) *jsonschema.Schema {
	out := *s
	if out.Description != "" {
		text += ": " + out.Description
	}
	out.Description = text
	return &out
}

// Text is any text.
func Text(desc string) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "string", Description: desc}
}

// Number is a plain number.
func Number(desc string) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "number", Description: desc}
}

// Whole is a whole number from lo to hi.
func Whole(desc string, lo, hi float64) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "integer", Description: desc, Minimum: &lo, Maximum: &hi}
}

// Words is one of a few words.
func Words(desc string, words ...string) *jsonschema.Schema {
	s := &jsonschema.Schema{Description: desc}
	for _, w := range words {
		s.Enum = append(s.Enum, w)
	}
	return s
}

// List is a list of lo to hi items; hi 0 = no end.
func List(item *jsonschema.Schema, lo, hi int) *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "array", Items: item, MinItems: &lo}
	if hi > 0 {
		s.MaxItems = &hi
	}
	return s
}

// Fields is the keys of a mapping; a key that ends in ! is required, every other may be unknown.
type Fields map[string]*jsonschema.Schema

// Mapping is a mapping of these keys and no others.
func Mapping(desc string, f Fields) *jsonschema.Schema {
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

// Named is a mapping of names to one kind of thing.
func Named(desc string, item *jsonschema.Schema) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "object", Description: desc, AdditionalProperties: item}
}

// Partial is a mapping in which nothing is required: what changes may override.
func Partial(s *jsonschema.Schema) *jsonschema.Schema {
	out := *s
	out.Required = nil
	return &out
}

// At is a place on the boat.
func At() *jsonschema.Schema {
	return Lengths("x forward from the transom, y to starboard, z up from the waterline", 3, 3)
}

// Lengths is a list of lengths.
func Lengths(desc string, lo, hi int) *jsonschema.Schema {
	return Described(desc, List(Quantity(quantity.Length), lo, hi))
}

// Price is an amount of money.
func Price() *jsonschema.Schema {
	return &jsonschema.Schema{Types: []string{"number", "string"}, Description: "an amount"}
}

func NoneOr(s *jsonschema.Schema) *jsonschema.Schema {
	return &jsonschema.Schema{Description: s.Description, AnyOf: []*jsonschema.Schema{s, Words("there is none", "none")}}
}

func OneOrMore(s *jsonschema.Schema) *jsonschema.Schema {
	return &jsonschema.Schema{AnyOf: []*jsonschema.Schema{s, List(s, 0, 0)}}
}
