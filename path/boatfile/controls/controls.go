package controls

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/fileschema"
	"hushwake/path/boatfile/overlay"
	"hushwake/source"
)

// Of are the values that can be changed in a text, by the schema: those of all sections, and of one layout (its name in
// the file) with what it is like. taken is what was filled in for the text. In the order of the file, what is not stated
// behind what is; nil where the text is no YAML.
func Of(data []byte, layout string, taken []source.Assumption) []Control {
	root, _ := decode.Parse(data)
	if root == nil || root.Kind != decode.Mapping {
		return nil
	}
	w := walker{root: root, defs: fileschema.SchemaOf().Defs, taken: map[string]source.Assumption{}, layout: layout}
	for _, a := range taken {
		if _, known := w.taken[a.Field]; !known {
			w.taken[a.Field] = a
		}
	}
	w.lines(taken)
	for i, key := range root.Keys {
		s := fileschema.SchemaOf().Properties[key.Text]
		switch {
		case s == nil, key.Text == "layouts":
		default:
			w.inside(spot{at: "/" + token(key.Text), field: key.Text, group: key.Text, label: key.Text, entry: true}, root.Values[i], s)
		}
	}
	w.layouts(layout)
	return w.out
}

// token is a key in a JSON pointer.
func token(key string) string { return strings.NewReplacer("~", "~0", "/", "~1").Replace(key) }

// layouts shows one layout and those that it is like, nearest first.
func (w *walker) layouts(name string) {
	_, all := w.root.Find("layouts")
	if all == nil || all.Kind != decode.Sequence {
		return
	}
	w.shown = name
	for range all.Items {
		i := slices.IndexFunc(all.Items, func(n *decode.Node) bool { return textAt(n, "name") == name })
		if i < 0 {
			return
		}
		w.inside(spot{at: fmt.Sprintf("/layouts/%d", i), field: "layouts." + name, group: "layouts " + name, entry: true}, all.Items[i], fileschema.SchemaOf().Properties["layouts"].Items)
		next := textAt(all.Items[i], "like")
		if next == "" || next == name {
			return
		}
		name = next
	}
}

// inside makes the controls of a value; n is nil where nothing stands there.
func (w *walker) inside(p spot, n *decode.Node, s *jsonschema.Schema) {
	all := w.plain(s)
	for _, a := range all {
		switch {
		case n == nil || n.Kind == decode.Scalar || n.Kind == decode.Null:
		case n.Kind == decode.Mapping && len(a.Properties) > 0 && !slices.ContainsFunc(n.Keys, func(k *decode.Node) bool { return a.Properties[k.Text] == nil && w.other(all, a, k.Text) }):
			w.mapping(p, n, a)
			return
		case n.Kind == decode.Mapping && a.AdditionalProperties != nil:
			for i, k := range n.Keys {
				w.inside(p.named(k.Text), n.Values[i], a.AdditionalProperties)
			}
			return
		case n.Kind == decode.Sequence && a.Items != nil:
			for i, item := range n.Items {
				w.inside(p.item(i, item), item, a.Items)
			}
			return
		}
	}
	if n != nil && n.Kind != decode.Scalar && n.Kind != decode.Null {
		return // no value that stands by itself
	}
	made := w.leaf(p, n, s, all)
	if p.depth > 0 || !n.Unknown() || made && n == nil && !w.anyMapping(all) {
		return
	}
	for _, a := range all {
		if len(a.Properties) > 0 && a.MaxProperties == nil {
			p.depth++
			w.mapping(p, &decode.Node{Kind: decode.Mapping}, a)
			return
		}
	}
}

// other tells whether a key belongs to another of the mappings that fit.
func (w *walker) other(all []*jsonschema.Schema, than *jsonschema.Schema, key string) bool {
	return slices.ContainsFunc(all, func(a *jsonschema.Schema) bool { return a != than && a.Properties[key] != nil })
}

// mapping makes the controls of what stands in a mapping, then of what could.
func (w *walker) mapping(p spot, n *decode.Node, s *jsonschema.Schema) {
	for i, k := range n.Keys {
		if inner := s.Properties[k.Text]; inner != nil {
			w.inside(p.key(k.Text, n.Values[i], s), n.Values[i], inner)
		}
	}
	if s.MaxProperties != nil { // an element has its kind alone
		return
	}
	for _, key := range slices.Sorted(maps.Keys(s.Properties)) {
		if k, _ := n.Find(key); k == nil && !slices.Contains(overlay.Keys, key) {
			w.inside(p.key(key, nil, s), nil, s.Properties[key])
		}
	}
}

// key is the place of a key in a mapping.
func (p spot) key(key string, v *decode.Node, s *jsonschema.Schema) spot {
	out := spot{at: p.at + "/" + token(key), field: p.field + "." + key, group: p.group, part: p.part, label: strings.ReplaceAll(key, "_", " "), depth: p.depth,
		required: slices.Contains(s.Required, key)}
	switch {
	case s.MaxProperties != nil: // an element
		out.part, out.entry = partName(key, p, v), true
	case key == "exhausts":
		out.field, out.entry = p.field, true
	case strings.Contains(p.at, "/line/") && !p.entry:
		out.label = p.label + " " + out.label
	case !p.entry:
		out.part = p.label
	}
	return out
}

// partName is how assumptions call an element: its kind, and its name or place.
func partName(kind string, p spot, v *decode.Node) string {
	if name := textAt(v, "name"); name != "" {
		return kind + " " + name
	}
	if i := strings.LastIndex(p.field, "["); i >= 0 {
		return kind + " " + strings.TrimSuffix(p.field[i+1:], "]")
	}
	return kind
}

// named is the place of an entry in a mapping of names.
func (p spot) named(name string) spot {
	out := spot{at: p.at + "/" + token(name), field: p.field + "." + name, group: p.group, part: p.part, label: name, entry: true}
	if !strings.Contains(p.group, " ") {
		out.group += " " + name
	}
	return out
}

// item is the place of an entry in a list.
func (p spot) item(i int, n *decode.Node) spot {
	out := p
	out.at, out.field = fmt.Sprintf("%s/%d", p.at, i), fmt.Sprintf("%s[%d]", p.field, i+1)
	out.entry = true
	if n.Kind == decode.Scalar {
		out.label = p.label + " " + axis(p.label, i)
		return out
	}
	name := textAt(n, "name")
	if _, sides := n.Find("between"); name == "" && sides != nil {
		name = strings.Join(textsOf(sides.Items), " - ")
	}
	if name != "" && !strings.Contains(p.field, ".") {
		out.field = p.field + "." + name
	}
	if !strings.Contains(p.group, " ") {
		out.group += " " + cmp.Or(name, fmt.Sprint(i+1))
	}
	return out
}

// textsOf is the text of each node.
func textsOf(all []*decode.Node) (out []string) {
	for _, n := range all {
		out = append(out, n.Text)
	}
	return out
}

// axis names an entry of a list of sizes.
func axis(label string, i int) string {
	names := map[string][]string{"at": {"x", "y", "z"}, "from": {"x", "y", "z"}, "to": {"x", "y", "z"}, "size": {"length", "width", "height"}}[label]
	if i < len(names) {
		return names[i]
	}
	return fmt.Sprint(i + 1)
}
