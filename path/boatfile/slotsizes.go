package boatfile

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/schema"
)

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

// checkSlots reads every option with the first of all others. What no size of an option can be is an error; sizes that
// do not go together are left out and said. more looks at the parts once they are read.
func (r *reader) checkSlots(l *path.Layout, more func(*reader, *path.Layout)) {
	s := r.open[l]
	if s == nil {
		return
	}
	before := r.Problems
	for i := range s.slots {
		wrong := map[*decode.Node][]int{} // places of options that cannot be, by what was written
		problems := make([][]decode.Problem, len(s.slots[i].options))
		for k, x := range s.slots[i].options {
			choice := make([]int, len(s.slots))
			choice[i] = k
			other, as := s.read(choice)
			more(other, as)
			if k == 0 || s.slots[i].options[k-1].at != x.at {
				r.alsoFilled(other, l)
			}
			for _, p := range other.Problems {
				if !slices.Contains(before, p) {
					problems[k] = append(problems[k], p)
				}
			}
			if len(problems[k]) > 0 {
				wrong[x.at] = append(wrong[x.at], k)
			}
		}
		r.outOf(&s.slots[i], wrong, problems)
	}
	l.Slots = s.public()
	for _, x := range s.slots {
		l.Unpriced = append(l.Unpriced, "slot "+x.name)
	}
}

// alsoFilled lists the defaults that an option takes beside those of the line as it stands, where its parts have other
// places: what a kind takes there already is not said again.
func (r *reader) alsoFilled(other *reader, l *path.Layout) {
	for _, x := range other.Shared {
		known := map[string]bool{}
		for _, y := range r.Shared {
			if y.Filled == x.Filled && slices.Contains(y.Layouts, l.Base) {
				_, who, _ := strings.Cut(y.What, " of ")
				for _, w := range strings.Split(who, ", ") {
					known[firstWord(w)] = true
				}
			}
		}
		what, who, _ := strings.Cut(x.What, " of ")
		fresh := slices.DeleteFunc(strings.Split(who, ", "), func(w string) bool { return known[firstWord(w)] })
		if len(fresh) > 0 {
			r.Share(l.Base, what+" of "+strings.Join(fresh, ", "), x.Filled)
		}
	}
}

func firstWord(s string) string {
	w, _, _ := strings.Cut(s, " ")
	return w
}

// outOf takes the sizes out of a slot that cannot be, and reports those that can be with nothing.
func (r *reader) outOf(s *slot, wrong map[*decode.Node][]int, problems [][]decode.Problem) {
	good, bad := map[*decode.Node]int{}, map[*decode.Node]int{} // by option and by size
	for k, x := range s.options {
		count := good
		if len(problems[k]) > 0 {
			count = bad
		}
		for _, n := range append(slices.Clone(x.sizes), x.at) {
			count[n]++
		}
	}
	var kept []option
	for k, x := range s.options {
		if len(problems[k]) == 0 {
			kept = append(kept, x)
			continue
		}
		lost := slices.ContainsFunc(append(slices.Clone(x.sizes), x.at), func(n *decode.Node) bool { return good[n] == 0 })
		if first := wrong[x.at][0] == k; lost && (first || good[x.at] > 0) {
			r.Problems = append(r.Problems, problems[k]...)
		} else if first {
			s.left = append(s.left, fmt.Sprintf("slot %s: %d of %d sizes of an option don't go together and are left out: %s", s.name, bad[x.at], bad[x.at]+good[x.at], problems[k][0].Message))
			r.Warn(x.at, "%s", s.left[len(s.left)-1])
		}
	}
	if len(kept) > 0 {
		s.options = kept
	}
}

// public is what others see of the slots.
func (s *slotted) public() *path.Slots {
	out := &path.Slots{Build: s.build}
	for _, x := range s.slots {
		out.Left = append(out.Left, x.left...)
		p := path.Slot{Name: x.name, Engine: x.engine}
		for _, o := range x.options {
			p.Options = append(p.Options, path.Option{Text: o.text, Priced: o.priced})
		}
		out.Slots = append(out.Slots, p)
	}
	return out
}
