package boatfile

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile/spelling"
)

// likeKeys say how a layout differs from the one it is like. They are gone once layouts are written out.
var likeKeys = []string{"like", "replace", "remove", "insert"}

// notInherited is what belongs to a layout alone: its name, and what was promised for its own line.
var notInherited = []string{"name", "promised"}

// writtenOut gives the file's tree with every layout that is like another written out in full.
func (r *reader) writtenOut(root *node) *node {
	_, layouts := root.find("layouts")
	if layouts == nil || layouts.kind != sequence {
		return root
	}
	w := writer{r: r, layouts: layouts.items, done: map[*node]*node{}}
	out := &node{kind: sequence, line: layouts.line, column: layouts.column}
	for _, item := range layouts.items {
		out.items = append(out.items, w.layout(item, nil))
	}
	return root.having("layouts", out)
}

// writer writes layouts out, each once.
type writer struct {
	r       *reader
	layouts []*node
	done    map[*node]*node
}

// layout is an entry with everything of the one it is like; open are those that are being written out.
func (w *writer) layout(n *node, open []*node) *node {
	if w.done[n] == nil {
		w.done[n] = w.fresh(n, open)
	}
	return w.done[n]
}

func (w *writer) fresh(n *node, open []*node) *node {
	at, like := n.find("like")
	if like.unknown() {
		for _, key := range likeKeys[1:] {
			if k, v := n.find(key); !v.unknown() {
				w.r.wrong(k, "add like: NAME of the layout whose line it changes", "%s has nothing to work on: the layout is not like another", key)
			}
		}
		return n.but(likeKeys)
	}
	base := w.named(like)
	switch {
	case base == nil:
		return w.asIf(n)
	case base == n || slices.Contains(open, base):
		w.r.wrong(at, "one of them must have exhausts of its own", "layout %q is like itself", spelling.Clip(n.nameOf()))
		return w.asIf(n)
	}
	out := merge(w.layout(base, append(open, n)).but(notInherited), n.but(append([]string{"changes"}, likeKeys...)))
	out = out.having("changes", bothChanges(out, n))
	out.line, out.column = n.line, n.column
	e := &lineEditor{r: w.r, n: n}
	if _, x := out.find("exhausts"); x != nil {
		out = out.having("exhausts", e.edit(x))
	}
	return out
}

// asIf gives a layout whose like can't be followed the exhausts of another, so that nothing more is said of them.
func (w *writer) asIf(n *node) *node {
	for _, item := range w.layouts {
		if _, x := item.find("exhausts"); x != nil {
			return item.but(append(notInherited, "changes")).having("name", textNode(n.nameOf()))
		}
	}
	return n.but(likeKeys)
}

// named finds the layout that a like means.
func (w *writer) named(like *node) *node {
	var names []string
	for _, item := range w.layouts {
		if like.kind == scalar && item.nameOf() == strings.TrimSpace(like.text) {
			return item
		}
		if _, own := item.find("exhausts"); own != nil {
			names = append(names, item.nameOf())
		}
	}
	w.r.wrong(like, spelling.DidYouMean(like.text, names), "like: no layout %q; the file has %s", spelling.Clip(like.text), listed(names))
	return nil
}

// bothChanges are a layout's changes after those of the one it is like.
func bothChanges(base, n *node) *node {
	_, a := base.find("changes")
	_, b := n.find("changes")
	_, p := a.find("partitions")
	_, q := b.find("partitions")
	out := merge(a, b)
	if p != nil && q != nil && p.kind == sequence && q.kind == sequence {
		out = out.having("partitions", &node{kind: sequence, line: q.line, column: q.column, items: append(slices.Clone(p.items), q.items...)})
	}
	return out
}

// lineEditor changes the lines of a layout by the names of their elements.
type lineEditor struct {
	r      *reader
	n      *node            // the layout that says how
	labels map[*node]string // what elements without a name are called, as the line stood before
}

// edit gives the exhausts with replace, remove and insert done, in that order. Numbers are those of the line before.
func (e *lineEditor) edit(exhausts *node) *node {
	e.labels = map[*node]string{}
	e.label(exhausts)
	if _, list := e.n.find("replace"); !list.unknown() {
		if list.kind != mapping {
			e.r.wrong(list, "write replace: {old silencer: [{packed: {...}}]}", "replace must be a mapping of element names, not %s", list.kind)
			return exhausts
		}
		for i, k := range list.keys {
			exhausts = e.put(exhausts, k, "replace", true, asElements(list.values[i]), false)
		}
	}
	if _, list := e.n.find("remove"); !list.unknown() {
		for _, name := range orOne(list) {
			exhausts = e.put(exhausts, name, "remove", true, nil, false)
		}
	}
	if _, list := e.n.find("insert"); !list.unknown() {
		for _, item := range orOne(list) {
			exhausts = e.insert(exhausts, item)
		}
	}
	return exhausts
}

func (e *lineEditor) insert(exhausts, item *node) *node {
	o := e.r.object(item, "insert")
	after, before := o.get("after"), o.get("before")
	elements := o.must("elements", "[{pipe: {bore: 102 mm, length: 1 m}}]")
	o.done()
	at := after
	if before != nil {
		at = before
	}
	switch {
	case (after == nil) == (before == nil):
		e.r.wrong(item, "write insert: {after: NAME, elements: [...]}", "insert needs the element that it goes after, or before")
		return exhausts
	case elements == nil:
		return exhausts
	}
	return e.put(exhausts, at, "insert", false, asElements(elements), before != nil)
}

// asElements is a list of elements as it is, or one element; none is an empty list, and what the owner doesn't know is
// a silencer of which nothing is known.
func asElements(n *node) []*node {
	switch {
	case isNone(n):
		return nil
	case n.unknown():
		return []*node{mappingOf("given", &node{kind: mapping, line: n.line, column: n.column})}
	}
	return orOne(n)
}

func orOne(n *node) []*node {
	if n.kind == sequence {
		return n.items
	}
	return []*node{n}
}

// put finds the element with a name in all lines and sets others in its place, or beside it.
func (e *lineEditor) put(exhausts, name *node, what string, drop bool, elements []*node, before bool) *node {
	if name.kind != scalar {
		e.r.wrong(name, "", "%s takes names of elements, not %s", what, name.kind)
		return exhausts
	}
	s := &search{labels: e.labels, name: strings.TrimSpace(name.text), drop: drop, before: before, elements: elements}
	out := s.in(exhausts)
	switch {
	case s.found == 0:
		e.r.wrong(name, spelling.DidYouMean(s.name, s.names), "%s: no element %q in the line; it has %s", what, spelling.Clip(s.name), listed(s.names))
		return exhausts
	case s.found > 1:
		e.r.wrong(name, "give the one that is meant a name: pipe: {name: tail pipe, ...}", "%s: %d elements are called %q", what, s.found, spelling.Clip(s.name))
		return exhausts
	}
	return out
}

// search walks lines for elements of a name, those in branches too. An element without a name goes by its kind, with
// its number in the line where there are several.
type search struct {
	name         string
	labels       map[*node]string
	drop, before bool
	elements     []*node
	found        int
	names        []string
}

// in gives the exhausts, or the branches of an element, with what was found replaced; the same node where nothing was.
func (s *search) in(n *node) *node {
	out, before := n, s.found
	for i, k := range n.orEmpty().keys {
		switch v := n.values[i]; {
		case k.text == "line" && v.kind == sequence:
			out = out.having("line", s.line(v))
		case k.text == "branches" && v.kind == sequence:
			list := &node{kind: sequence, line: v.line, column: v.column}
			for _, b := range v.items {
				list.items = append(list.items, s.line(b))
			}
			out = out.having("branches", list)
		case v.kind == mapping && k.text != "outlet":
			out = out.having(k.text, s.in(v))
		}
	}
	if s.found == before {
		return n
	}
	return out
}

func (s *search) line(n *node) *node {
	out := &node{kind: sequence, line: n.line, column: n.column}
	for _, item := range n.items {
		name := s.labels[item]
		if name == "" {
			name = elementName(item)
		}
		if name == "" {
			name = kindWord(item)
		}
		if s.names = append(s.names, name); name != s.name {
			out.items = append(out.items, s.in(item))
			continue
		}
		s.found++
		if !s.drop && !s.before {
			out.items = append(out.items, item)
		}
		out.items = append(out.items, s.elements...)
		if !s.drop && s.before {
			out.items = append(out.items, item)
		}
	}
	return out
}

// label names elements without a name by their kind, with their number in the line where there are several.
func (e *lineEditor) label(n *node) {
	for i, k := range n.keys {
		lists := []*node{n.values[i]}
		if k.text == "branches" {
			lists = n.values[i].items
		} else if k.text != "line" {
			e.label(n.values[i])
			continue
		}
		for _, list := range lists {
			e.labelLine(list)
		}
	}
}

func (e *lineEditor) labelLine(list *node) {
	kinds := map[string]int{}
	for _, item := range list.items {
		kinds[kindWord(item)]++
	}
	for i, item := range list.items {
		if kind := kindWord(item); elementName(item) == "" && kinds[kind] > 1 {
			e.labels[item] = fmt.Sprintf("%s %d", kind, i+1)
		}
		e.label(item)
	}
}

func kindWord(item *node) string {
	if item.kind == mapping && len(item.keys) == 1 {
		return item.keys[0].text
	}
	return item.text
}

// elementName is what the file calls an element: its name, or the quote that it is.
func elementName(item *node) string {
	if item.kind != mapping || len(item.values) != 1 {
		return ""
	}
	body := item.values[0]
	if name := body.nameOf(); name != "" {
		return name
	}
	if _, offer := body.find("offer"); offer != nil {
		return offer.text
	}
	if item.keys[0].text == "quote" && body.kind == scalar {
		return body.text
	}
	return ""
}
