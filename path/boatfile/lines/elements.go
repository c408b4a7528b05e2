package lines

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"hushwake/silencer"
)

// elementKind is one row of the table of elements.
type elementKind struct {
	name, words string
	// begins is what a part has that is put into a line: common sizes (common practice, no source), and what Found holds.
	begins string
	// fields makes an element with the fields that set it, in the order they are read.
	fields func(*element) (silencer.Element, []field)
	// read decodes a kind that is no element of its own, with the keys that the schema has.
	read func(*element, *decode.Node) silencer.Element
	keys func() schema.Fields
}

// elementTable holds the kinds in the order of the manual: decoder, schema, required keys and help come from it.
// A new kind is one row here.
func elementTable() []elementKind {
	return []elementKind{
		{name: "pipe", words: "a plain tube, straight or with bends", begins: "{bore: BORE, length: 1 m}", fields: (*element).pipe},
		{name: "bellows", words: "a flexible metal section that takes up growth and movement", begins: "{bore: BORE, length: 200 mm}", fields: (*element).bellows},
		{name: "elbow", words: "a bend on its own", begins: "{bore: BORE, angle: 90 deg}", fields: (*element).elbow},
		{name: "cone", words: "a conical diffuser or reducer between two bores", begins: "{bores: [BORE, BORE], length: 300 mm}", fields: (*element).cone},
		{name: "hose", words: "rubber exhaust hose behind the water injection", begins: "{bore: BORE, length: 2 m}", fields: (*element).hose},
		{name: "chamber", words: "an expansion chamber of one or several rooms", begins: "{bore: 300 mm, length: 600 mm}", fields: (*element).chamber},
		{name: "perforated", words: "a tube with holes in an empty shell", begins: "{bore: BORE, chamber_bore: 250 mm, length: 600 mm}", fields: (*element).perforated},
		{name: "plugged", words: "a tube with holes and a plug: all gas passes the holes twice", begins: "{bore: BORE, chamber_bore: 250 mm, length: 600 mm}", fields: (*element).plugged},
		{name: "packed", words: "a tube with holes in a shell packed with fibre", begins: "{bore: BORE, chamber_bore: 250 mm, length: 600 mm}", fields: (*element).packed},
		{name: "side_branch", words: "a closed side tube, or a resonator with neck and volume", begins: "{bore: BORE, length: 300 mm}", fields: (*element).sideBranch},
		{name: "parallel", words: "several lines side by side", begins: "{branches: [[pipe: {bore: BORE, length: 1 m}], [pipe: {bore: BORE, length: 1 m}]]}", fields: (*element).parallel},
		{name: "water_injection", words: "where raw water joins the gas", begins: "{flow: unknown, height_over_waterline: unknown}", fields: (*element).waterInjection},
		{name: "lift_chamber", words: "a water lift with dip tube and riser", begins: "{bore: 400 mm, height: 480 mm}", fields: (*element).liftChamber},
		{name: "riser", words: "a rising run with water in it", begins: "{bore: BORE, rise: 600 mm, top_over_waterline: unknown}", fields: (*element).riser},
		{name: "anti_siphon", words: "a vented loop in the raw-water line", begins: "{top_over_waterline: unknown}", fields: (*element).antiSiphon},
		{name: "separator", words: "a vessel that parts gas from water", begins: "{bore: 300 mm, height: 600 mm}", fields: (*element).separator},
		{name: "silencer", words: "a silencer of which a tape and a look tell", begins: "{kind: unknown, length: 600 mm, diameter: 250 mm}", read: (*element).silencerByLook, keys: lookFields},
		{name: "given", words: "a silencer known by stated figures only", begins: "{insertion_loss: unknown, pressure_drop: unknown, bore: BORE}", read: (*element).given, keys: LossFields},
		{name: "quote", words: "a silencer as offered under quotes", begins: "OFFER", read: (*element).quote,
			keys: func() schema.Fields { return schema.Fields{"offer!": schema.Text("the name of a quote")} }},
		{name: "one_of", words: "one of several offers: each makes a layout", begins: "[OFFERS]", read: (*element).oneOf,
			keys: func() schema.Fields {
				return schema.Fields{"offers!": schema.List(schema.Text("the name of a quote"), 1, 20)}
			}},
		{name: "slot", words: "a place left open for `choose`: one of several options", begins: "{name: OPEN, options: [none, {chamber: {bore: 300 mm, length: 600 mm}}]}", read: (*element).slot,
			keys: func() schema.Fields {
				return schema.Fields{"name!": schema.Text("what the place is called"), "options!": schema.List(schema.Ref("option"), 1, 0)}
			}},
	}
}

// Kinds are the names of all kinds.
func Kinds() (names []string) {
	for _, k := range elementTable() {
		names = append(names, k.name)
	}
	return names
}

// kindOf is the row of a name.
func kindOf(name string) (elementKind, bool) {
	t := elementTable()
	i := slices.IndexFunc(t, func(k elementKind) bool { return k.name == name })
	if i < 0 {
		return elementKind{}, false
	}
	return t[i], true
}

// decode reads one element.
func (k elementKind) decode(e *element, n *decode.Node) silencer.Element {
	if k.read != nil {
		return k.read(e, n)
	}
	x, list := k.fields(e)
	*x.Base() = e.open(n)
	for _, f := range list {
		f.read(e)
	}
	e.o.Done()
	return x
}

// blank are the fields of a kind outside any file.
func (k elementKind) blank() []field {
	if k.read != nil {
		return []field{{keys: k.keys()}}
	}
	_, list := k.fields(&element{l: &Reader{Common: &Common{}}})
	return list
}

// common are the fields that every element has.
func (e *element) common(c *silencer.Common) []field {
	lagging := schema.Mapping("insulation", schema.Fields{"thickness": schema.Quantity(quantity.Length), "material": schema.Text("such as mineral wool")})
	return []field{
		text("name", "what it is called", &c.Name), text("in", "the space its shell radiates into", &c.In), text("material", "of the wall", &c.Material),
		step(func(e *element) {
			if e.name = c.Name; e.name == "" {
				e.name = fmt.Sprintf("%d", e.index)
			}
		}),
		{keys: schema.Fields{"mass": schema.Quantity(quantity.Mass)}, read: func(e *element) { c.Mass = e.o.Pointer("mass", decode.NotNegative, quantity.Mass) }},
		{keys: schema.Fields{"price": schema.Price()}, read: func(e *element) {
			if c.Price = e.o.Price("price"); c.Price != nil {
				e.l.Cost.Price += *c.Price
			} else if e.o.Unstated("price") {
				e.l.Cost.Open = append(e.l.Cost.Open, e.kind+" "+e.name)
			}
		}},
		{keys: schema.Fields{"lagging": schema.NoneOr(lagging)}, read: func(e *element) { c.Lagging = e.lagging(e.o.Get("lagging")) }},
		{keys: schema.Fields{"envelope": schema.Lengths("clear space: two cross sizes and a length", 2, 3)}, read: func(e *element) {
			c.Envelope = e.l.Common.Lengths(e.o.Get("envelope"), e.o.Path+" envelope", 2, 3, decode.Positive)
		}},
		length("clearance", &c.Clearance, decode.UpTo(2)),
	}
}

// Schema is a mapping with one key, the kind.
func Schema() *jsonschema.Schema {
	one := 1
	s := &jsonschema.Schema{Type: "object", Description: "one element, manifold to outlet", MinProperties: &one, MaxProperties: &one,
		Properties: map[string]*jsonschema.Schema{}, AdditionalProperties: &jsonschema.Schema{Not: &jsonschema.Schema{}}}
	for _, k := range elementTable() {
		all := schema.Fields{}
		for _, f := range append((*element)(nil).common(&silencer.Common{}), k.blank()...) {
			maps.Copy(all, f.keys)
		}
		if k.name == "slot" {
			all = k.keys()
		}
		s.Properties[k.name] = schema.Mapping(k.name, all)
	}
	name := schema.Text("the name of a quote")
	s.Properties["quote"] = &jsonschema.Schema{AnyOf: []*jsonschema.Schema{name, s.Properties["quote"]}}
	s.Properties["one_of"] = &jsonschema.Schema{AnyOf: []*jsonschema.Schema{schema.List(name, 1, 20), s.Properties["one_of"]}}
	return s
}

// ElementHelp is what there is to say of a kind of element.
type ElementHelp struct {
	Kind, Words string
	Keys        []ElementKey // those of every element are in commonKeys
}

// ElementKey is one key of an element.
type ElementKey struct {
	Name     string
	Fits     string // what its value looks like
	Required bool
	Taken    string // what stands in where it is not stated, "" = nothing
}

// ElementHelps is the table of elements in words.
func ElementHelps() (all []ElementHelp) {
	for _, k := range elementTable() {
		all = append(all, ElementHelp{k.name, k.words, helpKeys(k.blank())})
	}
	return all
}

// commonKeys are the keys that every element takes.
func commonKeys() []ElementKey { return helpKeys((*element)(nil).common(&silencer.Common{})) }

func helpKeys(list []field) (keys []ElementKey) {
	for _, f := range list {
		for _, key := range slices.Sorted(maps.Keys(f.keys)) {
			name, required := strings.CutSuffix(key, "!")
			keys = append(keys, ElementKey{name, fitsIn(f.keys[key]), required, f.taken})
		}
	}
	return keys
}

// fitsIn words what a schema allows.
func fitsIn(s *jsonschema.Schema) string {
	var all []string
	for _, w := range s.Enum {
		all = append(all, fmt.Sprint(w))
	}
	for _, a := range s.AnyOf {
		if text := fitsIn(a); text != "" && !slices.Contains(all, text) {
			all = append(all, text)
		}
	}
	text := strings.Join(all, " | ")
	if s.Items != nil && text == "" && s.Description == "" {
		return "a list: " + fitsIn(s.Items)
	}
	if name, ok := strings.CutPrefix(s.Ref, "#/$defs/"); ok {
		return name
	}
	if s.Description == "" || text == s.Description {
		return text
	}
	if text == "" {
		return s.Description
	}
	return s.Description + ": " + text
}
