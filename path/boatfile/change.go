package boatfile

import (
	"fmt"
	"hushwake/path/boatfile/spelling"
	"slices"
	"strconv"
	"strings"
)

func keysOf(n *node) []string {
	var out []string
	for _, k := range n.keys {
		out = append(out, k.text)
	}
	return out
}

// with copies a tree, other texts put into some of its values.
func (n *node) with(put map[*node]string) *node {
	if n == nil {
		return nil
	}
	out := *n
	if t, ok := put[n]; ok {
		out.text = t
	}
	out.values = make([]*node, len(n.values))
	for i, v := range n.values {
		out.values[i] = v.with(put)
	}
	out.items = make([]*node, len(n.items))
	for i, v := range n.items {
		out.items[i] = v.with(put)
	}
	return &out
}

// place finds the single value that a path of keys names, such as boat.partitions.hatch.area; an entry
// of a list goes by its name or its place, counted from 1.
func (n *node) place(path string) (*node, error) {
	at := n
	for _, key := range strings.Split(path, ".") {
		next, known := at.child(key)
		if next == nil {
			return nil, fmt.Errorf("field %q: no %q there; there are %s\nhint: %s", spelling.Clip(path), spelling.Clip(key), listed(known), spelling.DidYouMean(key, known))
		}
		at = next
	}
	if at.kind != scalar {
		return nil, fmt.Errorf("field %q is %s\nhint: name one value of it", spelling.Clip(path), at.kind)
	}
	return at, nil
}

// child is an entry of a mapping or list, with the names that it may go by.
func (n *node) child(key string) (*node, []string) {
	if _, v := n.find(key); v != nil {
		return v, nil
	}
	known := keysOf(n)
	for i, item := range n.items {
		name := item.nameOf()
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

// nameOf is the name of a list's entry, or of the one thing it holds.
func (n *node) nameOf() string {
	if _, v := n.find("name"); v != nil {
		return v.text
	}
	if len(n.values) == 1 {
		if _, v := n.values[0].find("name"); v != nil {
			return v.text
		}
	}
	return ""
}

func (n *node) texts() (all []string) {
	for i, v := range n.values {
		all = append(append(all, n.keys[i].text), v.texts()...)
	}
	for _, v := range n.items {
		all = append(all, v.texts()...)
	}
	return append(all, n.text)
}

// but is a mapping without some keys.
func (n *node) but(keys []string) *node {
	if n.kind != mapping {
		return n
	}
	out := &node{kind: mapping, line: n.line, column: n.column}
	for i, k := range n.keys {
		if !slices.Contains(keys, k.text) {
			out.keys, out.values = append(out.keys, k), append(out.values, n.values[i])
		}
	}
	return out
}

// having is a mapping with a value put in; nil leaves it as it is.
func (n *node) having(key string, v *node) *node {
	if v == nil {
		return n
	}
	out := &node{kind: n.kind, line: n.line, column: n.column, keys: slices.Clone(n.keys), values: slices.Clone(n.values)}
	if i := slices.IndexFunc(out.keys, func(k *node) bool { return k.text == key }); i >= 0 {
		out.values[i] = v
		return out
	}
	out.keys, out.values = append(out.keys, &node{text: key, line: v.line, column: v.column}), append(out.values, v)
	return out
}

// equal is whether two nodes say the same, wherever they stand.
func (n *node) equal(o *node) bool {
	return n.kind == o.kind && strings.TrimSpace(n.text) == strings.TrimSpace(o.text) && slices.EqualFunc(n.keys, o.keys, (*node).equal) &&
		slices.EqualFunc(n.values, o.values, (*node).equal) && slices.EqualFunc(n.items, o.items, (*node).equal)
}

// putting is a tree in which others stand for some nodes, any number for an item of a list; what does not change is shared.
func (n *node) putting(put map[*node][]*node) *node {
	out := *n
	out.values, out.items = slices.Clone(n.values), nil
	changed := false
	for i, v := range n.values {
		w := v.putting(put)
		if by, ok := put[v]; ok && len(by) == 1 {
			w = by[0]
		}
		out.values[i], changed = w, changed || w != v
	}
	for _, v := range n.items {
		if by, ok := put[v]; ok {
			out.items, changed = append(out.items, by...), true
			continue
		}
		w := v.putting(put)
		out.items, changed = append(out.items, w), changed || w != v
	}
	if !changed {
		return n
	}
	return &out
}

func (n *node) orEmpty() *node {
	if n == nil {
		return &node{kind: mapping}
	}
	return n
}

func (n *node) put(key string, v *node) {
	n.keys, n.values = append(n.keys, textNode(key)), append(n.values, v)
}

func textNode(s string) *node { return &node{kind: scalar, text: s} }

func mappingOf(key string, v *node) *node {
	n := &node{kind: mapping}
	n.put(key, v)
	return n
}

// listed words a list of names; a long one is cut.
func listed(names []string) string {
	switch {
	case len(names) == 0:
		return "none"
	case len(names) > 30:
		return strings.Join(names[:30], ", ") + " and more"
	}
	return strings.Join(names, ", ")
}
