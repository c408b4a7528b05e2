package overlay

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/spelling"
)

// Keys say how a layout differs from the one it is like. They are gone once layouts are written out.
var Keys = []string{"like", "replace", "remove", "insert"}

// notInherited is what belongs to a layout alone: its name, and what was promised for its own line.
var notInherited = []string{"name", "promised"}

// WrittenOut gives the file's tree with every layout that is like another written out in full.
func WrittenOut(r *decode.Reader, root *decode.Node) *decode.Node {
	_, layouts := root.Find("layouts")
	if layouts == nil || layouts.Kind != decode.Sequence {
		return root
	}
	w := writer{r: r, layouts: layouts.Items, done: map[*decode.Node]*decode.Node{}}
	out := &decode.Node{Kind: decode.Sequence, Line: layouts.Line, Column: layouts.Column}
	for _, item := range layouts.Items {
		out.Items = append(out.Items, w.layout(item, nil))
	}
	return root.Having("layouts", out)
}

// writer writes layouts out, each once.
type writer struct {
	r       *decode.Reader
	layouts []*decode.Node
	done    map[*decode.Node]*decode.Node
}

// layout is an entry with everything of the one it is like; open are those that are being written out.
func (w *writer) layout(n *decode.Node, open []*decode.Node) *decode.Node {
	if w.done[n] == nil {
		w.done[n] = w.fresh(n, open)
	}
	return w.done[n]
}

func (w *writer) fresh(n *decode.Node, open []*decode.Node) *decode.Node {
	at, like := n.Find("like")
	if like.Unknown() {
		for _, key := range Keys[1:] {
			if k, v := n.Find(key); !v.Unknown() {
				w.r.Wrong(k, "add like: NAME of the layout whose line it changes", "%s has nothing to work on: the layout is not like another", key)
			}
		}
		return n.But(Keys)
	}
	base := w.named(like)
	switch {
	case base == nil:
		return w.asIf(n)
	case base == n || slices.Contains(open, base):
		w.r.Wrong(at, "one of them must have exhausts of its own", "layout %q is like itself", spelling.Clip(n.NameOf()))
		return w.asIf(n)
	}
	out := merge(w.layout(base, append(open, n)).But(notInherited), n.But(append([]string{"changes"}, Keys...)))
	out = out.Having("changes", bothChanges(out, n))
	out.Line, out.Column = n.Line, n.Column
	e := &lineEditor{r: w.r, n: n}
	if _, x := out.Find("exhausts"); x != nil {
		out = out.Having("exhausts", e.edit(x))
	}
	return out
}

// asIf gives a layout whose like can't be followed the exhausts of another, so that nothing more is said of them.
func (w *writer) asIf(n *decode.Node) *decode.Node {
	for _, item := range w.layouts {
		if _, x := item.Find("exhausts"); x != nil {
			return item.But(append(notInherited, "changes")).Having("name", decode.TextNode(n.NameOf()))
		}
	}
	return n.But(Keys)
}

// named finds the layout that a like means.
func (w *writer) named(like *decode.Node) *decode.Node {
	var names []string
	for _, item := range w.layouts {
		if like.Kind == decode.Scalar && item.NameOf() == strings.TrimSpace(like.Text) {
			return item
		}
		if _, own := item.Find("exhausts"); own != nil {
			names = append(names, item.NameOf())
		}
	}
	hint := spelling.DidYouMean(like.Text, names)
	if hint == "" && len(names) > 0 {
		hint = "write " + strings.Join(names, " or ") + ", whichever it is like"
	}
	w.r.Wrong(like, hint, "like: no layout %q; the file has %s", spelling.Clip(like.Text), decode.Listed(names))
	return nil
}

// bothChanges are a layout's changes after those of the one it is like.
func bothChanges(base, n *decode.Node) *decode.Node {
	_, a := base.Find("changes")
	_, b := n.Find("changes")
	_, p := a.Find("partitions")
	_, q := b.Find("partitions")
	out := merge(a, b)
	if p != nil && q != nil && p.Kind == decode.Sequence && q.Kind == decode.Sequence {
		out = out.Having("partitions", &decode.Node{Kind: decode.Sequence, Line: q.Line, Column: q.Column, Items: append(slices.Clone(p.Items), q.Items...)})
	}
	return out
}

// lineEditor changes the lines of a layout by the names of their elements.
type lineEditor struct {
	r      *decode.Reader
	n      *decode.Node            // the layout that says how
	labels map[*decode.Node]string // what elements without a name are called, as the line stood before
}

// edit gives the exhausts with replace, remove and insert done, in that order. Numbers are those of the line before.
func (e *lineEditor) edit(exhausts *decode.Node) *decode.Node {
	e.labels = map[*decode.Node]string{}
	e.label(exhausts)
	if _, list := e.n.Find("replace"); !list.Unknown() {
		if list.Kind != decode.Mapping {
			e.r.Wrong(list, "write replace: {old silencer: [{packed: {...}}]}", "replace must be a mapping of element names, not %s", list.Kind)
			return exhausts
		}
		for i, k := range list.Keys {
			exhausts = e.put(exhausts, k, "replace", true, Elements(list.Values[i]), false)
		}
	}
	if _, list := e.n.Find("remove"); !list.Unknown() {
		for _, name := range orOne(list) {
			exhausts = e.put(exhausts, name, "remove", true, nil, false)
		}
	}
	if _, list := e.n.Find("insert"); !list.Unknown() {
		for _, item := range orOne(list) {
			exhausts = e.insert(exhausts, item)
		}
	}
	return exhausts
}

func (e *lineEditor) insert(exhausts, item *decode.Node) *decode.Node {
	o := e.r.Object(item, "insert")
	after, before := o.Get("after"), o.Get("before")
	elements := o.Must("elements", "[{pipe: {bore: 102 mm, length: 1 m}}]")
	o.Done()
	at := after
	if before != nil {
		at = before
	}
	switch {
	case (after == nil) == (before == nil):
		e.r.Wrong(item, "write insert: {after: NAME, elements: [...]}", "insert needs the element that it goes after, or before")
		return exhausts
	case elements == nil:
		return exhausts
	}
	return e.put(exhausts, at, "insert", false, Elements(elements), before != nil)
}

// Elements is a list of elements as it is, or one element; none is an empty list, and what the owner doesn't know is
// a silencer of which nothing is known.
func Elements(n *decode.Node) []*decode.Node {
	switch {
	case n.None():
		return nil
	case n.Unknown():
		return []*decode.Node{decode.MappingOf("given", &decode.Node{Kind: decode.Mapping, Line: n.Line, Column: n.Column})}
	}
	return orOne(n)
}

func orOne(n *decode.Node) []*decode.Node {
	if n.Kind == decode.Sequence {
		return n.Items
	}
	return []*decode.Node{n}
}

// put finds the element with a name in all lines and sets others in its place, or beside it.
func (e *lineEditor) put(exhausts, name *decode.Node, what string, drop bool, elements []*decode.Node, before bool) *decode.Node {
	if name.Kind != decode.Scalar {
		e.r.Wrong(name, "", "%s takes names of elements, not %s", what, name.Kind)
		return exhausts
	}
	s := &search{labels: e.labels, name: strings.TrimSpace(name.Text), drop: drop, before: before, elements: elements}
	out := s.in(exhausts)
	switch {
	case s.found == 0:
		hint := spelling.DidYouMean(s.name, s.names)
		if len(s.ofKind) > 0 {
			hint = "write " + strings.Join(s.ofKind, " or ")
		}
		if len(s.ofKind) > 1 {
			hint += ", whichever is meant"
		}
		e.r.Wrong(name, hint, "%s: no element %q in the line; it has %s", what, spelling.Clip(s.name), decode.Listed(s.names))
		return exhausts
	case s.found > 1:
		e.r.Wrong(name, "give the one that is meant a name: pipe: {name: tail pipe, ...}", "%s: %d elements are called %q", what, s.found, spelling.Clip(s.name))
		return exhausts
	}
	return out
}

// search walks lines for elements of a name, those in branches too. An element without a name goes by its kind, with
// its number in the line where there are several.
type search struct {
	name         string
	labels       map[*decode.Node]string
	drop, before bool
	elements     []*decode.Node
	found        int
	names        []string
	ofKind       []string // names of elements of the kind that is called by the name looked for
}

// in gives the exhausts, or the branches of an element, with what was found replaced; the same node where nothing was.
func (s *search) in(n *decode.Node) *decode.Node {
	out, before := n, s.found
	for i, k := range n.OrEmpty().Keys {
		switch v := n.Values[i]; {
		case k.Text == "line" && v.Kind == decode.Sequence:
			out = out.Having("line", s.line(v))
		case k.Text == "branches" && v.Kind == decode.Sequence:
			list := &decode.Node{Kind: decode.Sequence, Line: v.Line, Column: v.Column}
			for _, b := range v.Items {
				list.Items = append(list.Items, s.line(b))
			}
			out = out.Having("branches", list)
		case v.Kind == decode.Mapping && k.Text != "outlet":
			out = out.Having(k.Text, s.in(v))
		}
	}
	if s.found == before {
		return n
	}
	return out
}

func (s *search) line(n *decode.Node) *decode.Node {
	out := &decode.Node{Kind: decode.Sequence, Line: n.Line, Column: n.Column}
	for _, item := range n.Items {
		name := s.labels[item]
		if name == "" {
			name = NameOf(item)
		}
		if name == "" {
			name = KindOf(item)
		}
		if KindOf(item) == s.name {
			s.ofKind = append(s.ofKind, name)
		}
		if s.names = append(s.names, name); name != s.name {
			out.Items = append(out.Items, s.in(item))
			continue
		}
		s.found++
		if !s.drop && !s.before {
			out.Items = append(out.Items, item)
		}
		out.Items = append(out.Items, s.elements...)
		if !s.drop && s.before {
			out.Items = append(out.Items, item)
		}
	}
	return out
}

// label names elements without a name by their kind, with their number in the line where there are several.
func (e *lineEditor) label(n *decode.Node) {
	for i, k := range n.Keys {
		lists := []*decode.Node{n.Values[i]}
		if k.Text == "branches" {
			lists = n.Values[i].Items
		} else if k.Text != "line" {
			e.label(n.Values[i])
			continue
		}
		for _, list := range lists {
			e.labelLine(list)
		}
	}
}

func (e *lineEditor) labelLine(list *decode.Node) {
	kinds := map[string]int{}
	for _, item := range list.Items {
		kinds[KindOf(item)]++
	}
	for i, item := range list.Items {
		if kind := KindOf(item); NameOf(item) == "" && kinds[kind] > 1 {
			e.labels[item] = fmt.Sprintf("%s %d", kind, i+1)
		}
		e.label(item)
	}
}

// KindOf is the kind of an element, as the file writes it.
func KindOf(item *decode.Node) string {
	if item.Kind == decode.Mapping && len(item.Keys) == 1 {
		return item.Keys[0].Text
	}
	return item.Text
}

// NameOf is what the file calls an element: its name, or the quote that it is.
func NameOf(item *decode.Node) string {
	if item.Kind != decode.Mapping || len(item.Values) != 1 {
		return ""
	}
	body := item.Values[0]
	if name := body.NameOf(); name != "" {
		return name
	}
	if _, offer := body.Find("offer"); offer != nil {
		return offer.Text
	}
	if item.Keys[0].Text == "quote" && body.Kind == decode.Scalar {
		return body.Text
	}
	return ""
}
