package boatfile

import (
	"fmt"
	"slices"
	"sync"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/schema"
)

// mostSizes is to how many sizes one option may unfold.
const mostSizes = 400

// sizes is a list of sizes where an element has one quantity.
type sizes struct {
	key  string
	list *decode.Node
}

// elementSchemas is the schema of elements, which tells a list of sizes from a list that the key takes anyway.
var elementSchemas = sync.OnceValue(lines.Schema)

// sizesIn finds the lists of sizes in a part of an option.
func (r *reader) sizesIn(key string, n *decode.Node, s *jsonschema.Schema) (all []sizes) {
	if n.Kind == decode.Mapping {
		for i, k := range n.Keys {
			if p := first(s, func(a *jsonschema.Schema) *jsonschema.Schema { return a.Properties[k.Text] }); p != nil {
				all = append(all, r.sizesIn(lines.Spoken(k.Text), n.Values[i], p)...)
			}
		}
		return all
	}
	if n.Kind != decode.Sequence {
		return nil
	}
	if item := first(s, func(a *jsonschema.Schema) *jsonschema.Schema { return a.Items }); item != nil {
		for i, v := range n.Items {
			name := key
			if len(n.Items) > 1 {
				name = fmt.Sprintf("%s[%d]", key, i+1)
			}
			all = append(all, r.sizesIn(name, v, item)...)
		}
		return all
	}
	if first(s, quantityIn) == nil {
		if first(s, refIn) == nil {
			r.Wrong(n, "write an option of its own for each", "%s takes no list: only one quantity may be several sizes", key)
		}
		return nil
	}
	for _, v := range n.Items {
		if v.Kind != decode.Scalar {
			r.Wrong(v, "write the sizes one behind the other: [250 mm, 300 mm]", "%s: a list of sizes holds single quantities, not %s", key, v.Kind)
			return nil
		}
	}
	if len(n.Items) == 0 {
		r.Wrong(n, "write one size or more: [250 mm, 300 mm]", "%s: the list of sizes is empty", key)
		return nil
	}
	return []sizes{{key, n}}
}

// first is what the first of a schema's alternatives has, nil where none has it.
func first(s *jsonschema.Schema, of func(*jsonschema.Schema) *jsonschema.Schema) *jsonschema.Schema {
	if s == nil {
		return nil
	}
	if found := of(s); found != nil {
		return found
	}
	for _, a := range s.AnyOf {
		if found := first(a, of); found != nil {
			return found
		}
	}
	return nil
}

func quantityIn(s *jsonschema.Schema) *jsonschema.Schema {
	if s.Pattern == schema.NumberPattern {
		return s
	}
	return nil
}

func refIn(s *jsonschema.Schema) *jsonschema.Schema {
	if s.Ref != "" && s.Ref != schema.Ref("unknown").Ref {
		return s
	}
	return nil
}

// combinations takes one of each list, the last changing fastest, one more than mostSizes at most; one empty
// combination where there is no list.
func combinations(open []sizes) [][]*decode.Node {
	all := [][]*decode.Node{{}}
	for _, s := range open {
		var next [][]*decode.Node
		for _, c := range all {
			for _, v := range s.list.Items {
				if len(next) <= mostSizes {
					next = append(next, append(slices.Clone(c), v))
				}
			}
		}
		all = next
	}
	return all
}

// OptionSchema is what may stand in a slot: any element, whose quantities may be lists of sizes, several, or none.
func OptionSchema() *jsonschema.Schema {
	e := sized(lines.Schema())
	delete(e.Properties, "slot")
	delete(e.Properties, "one_of")
	return schema.Described("what may stand in a slot", schema.NoneOr(schema.OneOrMore(e)))
}

// sized lets every quantity of a schema be a list of them.
func sized(s *jsonschema.Schema) *jsonschema.Schema {
	if s == nil {
		return nil
	}
	if quantityIn(s) != nil {
		return &jsonschema.Schema{Description: s.Description, AnyOf: []*jsonschema.Schema{s, schema.List(s, 1, 0)}}
	}
	out := *s
	out.Items, out.AnyOf, out.Properties = sized(s.Items), nil, nil
	for _, a := range s.AnyOf {
		out.AnyOf = append(out.AnyOf, sized(a))
	}
	for k, p := range s.Properties {
		if out.Properties == nil {
			out.Properties = map[string]*jsonschema.Schema{}
		}
		out.Properties[k] = sized(p)
	}
	return &out
}
