package decode

import (
	"fmt"
	"hushwake/path/boatfile/spelling"
	"slices"
	"strconv"
	"strings"
)

// KeysOf are the words of a mapping's keys.
func KeysOf(n *Node) []string {
	var out []string
	for _, k := range n.Keys {
		out = append(out, k.Text)
	}
	return out
}

// With copies a tree, other texts put into some of its values.
func (n *Node) With(put map[*Node]string) *Node {
	if n == nil {
		return nil
	}
	out := *n
	if t, ok := put[n]; ok {
		out.Text = t
	}
	out.Values = make([]*Node, len(n.Values))
	for i, v := range n.Values {
		out.Values[i] = v.With(put)
	}
	out.Items = make([]*Node, len(n.Items))
	for i, v := range n.Items {
		out.Items[i] = v.With(put)
	}
	return &out
}

// Place finds the single value that a path of keys names, such as boat.partitions.hatch.area; an entry
// of a list goes by its name or its place, counted from 1.
func (n *Node) Place(path string) (*Node, error) {
	at := n
	for _, key := range strings.Split(path, ".") {
		next, known := at.child(key)
		if next == nil {
			return nil, fmt.Errorf("field %q: no %q there; there are %s\nhint: %s", spelling.Clip(path), spelling.Clip(key), Listed(known), spelling.DidYouMean(key, known))
		}
		at = next
	}
	if at.Kind != Scalar {
		return nil, fmt.Errorf("field %q is %s\nhint: name one value of it", spelling.Clip(path), at.Kind)
	}
	return at, nil
}

// child is an entry of a mapping or list, with the names that it may go by.
func (n *Node) child(key string) (*Node, []string) {
	if _, v := n.Find(key); v != nil {
		return v, nil
	}
	known := KeysOf(n)
	for i, item := range n.Items {
		name := item.NameOf()
		if name == "" {
			name = strconv.Itoa(i + 1)
		}
		if key == name || key == strconv.Itoa(i+1) {
			return item, nil
		}
		known = append(known, name)
	}
	return nil, known
}

// NameOf is the name of a list's entry, or of the one thing it holds.
func (n *Node) NameOf() string {
	if _, v := n.Find("name"); v != nil {
		return v.Text
	}
	if len(n.Values) == 1 {
		if _, v := n.Values[0].Find("name"); v != nil {
			return v.Text
		}
	}
	return ""
}

// Texts are all texts of a tree, in its order.
func (n *Node) Texts() (all []string) {
	for i, v := range n.Values {
		all = append(append(all, n.Keys[i].Text), v.Texts()...)
	}
	for _, v := range n.Items {
		all = append(all, v.Texts()...)
	}
	return append(all, n.Text)
}

// But is a mapping without some keys.
func (n *Node) But(keys []string) *Node {
	if n.Kind != Mapping {
		return n
	}
	out := &Node{Kind: Mapping, Line: n.Line, Column: n.Column}
	for i, k := range n.Keys {
		if !slices.Contains(keys, k.Text) {
			out.Keys, out.Values = append(out.Keys, k), append(out.Values, n.Values[i])
		}
	}
	return out
}

// Having is a mapping with a value put in; nil leaves it as it is.
func (n *Node) Having(key string, v *Node) *Node {
	if v == nil {
		return n
	}
	out := &Node{Kind: n.Kind, Line: n.Line, Column: n.Column, Keys: slices.Clone(n.Keys), Values: slices.Clone(n.Values)}
	if i := slices.IndexFunc(out.Keys, func(k *Node) bool { return k.Text == key }); i >= 0 {
		out.Values[i] = v
		return out
	}
	out.Keys, out.Values = append(out.Keys, &Node{Text: key, Line: v.Line, Column: v.Column}), append(out.Values, v)
	return out
}

// Equal is whether two nodes say the same, wherever they stand.
func (n *Node) Equal(o *Node) bool {
	return n.Kind == o.Kind && strings.TrimSpace(n.Text) == strings.TrimSpace(o.Text) && slices.EqualFunc(n.Keys, o.Keys, (*Node).Equal) &&
		slices.EqualFunc(n.Values, o.Values, (*Node).Equal) && slices.EqualFunc(n.Items, o.Items, (*Node).Equal)
}

// Putting is a tree in which others stand for some nodes, any number for an item of a list; what does not change is shared.
func (n *Node) Putting(put map[*Node][]*Node) *Node {
	out := *n
	out.Values, out.Items = slices.Clone(n.Values), nil
	changed := false
	for i, v := range n.Values {
		w := v.Putting(put)
		if by, ok := put[v]; ok && len(by) == 1 {
			w = by[0]
		}
		out.Values[i], changed = w, changed || w != v
	}
	for _, v := range n.Items {
		if by, ok := put[v]; ok {
			out.Items, changed = append(out.Items, by...), true
			continue
		}
		w := v.Putting(put)
		out.Items, changed = append(out.Items, w), changed || w != v
	}
	if !changed {
		return n
	}
	return &out
}

// OrEmpty is an empty mapping in place of nothing.
func (n *Node) OrEmpty() *Node {
	if n == nil {
		return &Node{Kind: Mapping}
	}
	return n
}

// Put adds a key at the end of a mapping.
func (n *Node) Put(key string, v *Node) {
	n.Keys, n.Values = append(n.Keys, TextNode(key)), append(n.Values, v)
}

// TextNode is a text without a place.
func TextNode(s string) *Node { return &Node{Kind: Scalar, Text: s} }

// MappingOf is a mapping of one key.
func MappingOf(key string, v *Node) *Node {
	n := &Node{Kind: Mapping}
	n.Put(key, v)
	return n
}

// Listed words a list of names; a long one is cut.
func Listed(names []string) string {
	between := ", "
	if strings.Contains(strings.Join(names, ""), ",") {
		between = "; " // names with commas would run together
	}
	switch {
	case len(names) == 0:
		return "none"
	case len(names) > 30:
		return strings.Join(names[:30], between) + " and more"
	}
	return strings.Join(names, between)
}

// None is whether the owner wrote that there is none.
func (n *Node) None() bool {
	return n.Kind == Scalar && strings.EqualFold(strings.TrimSpace(n.Text), "none")
}
