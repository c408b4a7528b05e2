package controls

import (
	"slices"
	"strings"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path/boatfile/decode"
	"hushwake/source"
)

// Control is one value of a boat file that can be changed by itself: stated or not.
type Control struct {
	At       string   // JSON pointer
	Group    string   // the section, and its name or place: "engines main", "layouts as is", "listeners helm"
	Part     string   // of a line: its kind and name; else what encloses the value: "rated", "outlet"
	Label    string   // the key in words
	Value    string   // as written, quotes off; "" where it is not stated
	Unit     string   // of the value, else of the example; "" = none
	Fits     string   // what the schema says of it
	Example  string   // a value that fits, "" = none
	Choices  []string // the words that fit; nil = any
	Required bool     // cannot be left out
	Unknown  bool     // not stated, or said to be unknown
	Taken    string   // what stands in where it is not stated, "" = nothing
	Price    *float64 // dB that not knowing it adds to a level; nil = nothing was taken
	Layout   string   // the layout that it is shown with; "" = all
}

// walker goes over a tree beside its schema.
type walker struct {
	root   *decode.Node
	defs   map[string]*jsonschema.Schema
	taken  map[string]source.Assumption // by their field
	layout string
	shown  string // layout of the controls that are made
	out    []Control
}

// spot is a place: its pointer, how assumptions speak of it, and how it is shown.
type spot struct {
	at, field, group, part, label string
	required                      bool
	entry                         bool // a section, or one of its entries: encloses, but isn't said
	depth                         int  // mappings that are not there
}

// plain follows references and leaves out that the owner doesn't know.
func (w *walker) plain(s *jsonschema.Schema) (all []*jsonschema.Schema) {
	if name, ok := strings.CutPrefix(s.Ref, "#/$defs/"); ok {
		if name == "unknown" {
			return nil
		}
		return w.plain(w.defs[name])
	}
	if len(s.Properties) > 0 || len(s.AnyOf) == 0 || s.AdditionalProperties != nil && s.AdditionalProperties.Not == nil {
		return []*jsonschema.Schema{s}
	}
	for _, a := range s.AnyOf {
		all = append(all, w.plain(a)...)
	}
	return all
}

// anyMapping tells whether a mapping fits.
func (w *walker) anyMapping(all []*jsonschema.Schema) bool {
	return slices.ContainsFunc(all, func(a *jsonschema.Schema) bool { return len(a.Properties) > 0 })
}

func textAt(n *decode.Node, key string) string {
	if _, v := n.Find(key); v != nil {
		return v.Text
	}
	return ""
}
