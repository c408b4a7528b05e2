package boatfile

import (
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/spelling"
)

// changed decodes spaces, partitions, enclosures and engines of a layout: those of the file with the
// layout's changes laid over them.
func (r *reader) changed(o *object, root *object, l *path.Layout, name string) {
	c := r.object(o.get("changes"), o.path+".changes")
	spaces := r.overlay(root.get("spaces"), c.get("spaces"), "space")
	enclosures := r.overlay(root.get("enclosures"), c.get("enclosures"), "enclosure")
	engines := r.overlay(root.get("engines"), c.get("engines"), "engine")
	partitions := r.overlayPartitions(root.get("partitions"), c.get("partitions"))
	c.done()
	l.Spaces = r.spaces(spaces)
	l.Enclosures = r.enclosures(enclosures)
	l.Engines = r.engines(engines)
	l.Partitions = r.partitions(partitions)
}

// overlay lays a mapping of names over another. A name that the file doesn't have must be spelled
// right, so one that is close to an existing name is taken for a slip.
func (r *reader) overlay(base, change *node, what string) *node {
	if change == nil {
		return base
	}
	if base == nil || base.kind != mapping {
		base = &node{kind: mapping, line: change.line, column: change.column}
	}
	if change.kind != mapping {
		r.wrong(change, "", "changes of %ss must be a mapping of names, not %s", what, change.kind)
		return base
	}
	var names []string
	for _, k := range base.keys {
		names = append(names, k.text)
	}
	for i, k := range change.keys {
		if slices.Contains(names, k.text) {
			continue
		}
		near := spelling.Nearest(k.text, names)
		_, size := change.values[i].find("size")
		if what == "engine" || near != "" || size == nil {
			r.wrong(k, spelling.DidYouMean(k.text, names), "no %s %q to change; the file has %s", what, spelling.Clip(k.text), listed(names))
		}
	}
	return merge(base, change)
}

// merge lays b over a: mappings merge key by key, everything else is replaced.
func merge(a, b *node) *node {
	if a == nil || b == nil || a.kind != mapping || b.kind != mapping {
		if b == nil {
			return a
		}
		return b
	}
	out := &node{kind: mapping, line: a.line, column: a.column}
	for i, k := range a.keys {
		out.keys = append(out.keys, k)
		if _, v := b.find(k.text); v != nil {
			out.values = append(out.values, merge(a.values[i], v))
		} else {
			out.values = append(out.values, a.values[i])
		}
	}
	for i, k := range b.keys {
		if _, v := a.find(k.text); v == nil {
			out.keys, out.values = append(out.keys, k), append(out.values, b.values[i])
		}
	}
	return out
}

// overlayPartitions lays entries over those with the same name or, without a name, between the same
// spaces. A complete entry that matches none is added.
func (r *reader) overlayPartitions(base, change *node) *node {
	if change == nil || change.kind != sequence {
		if change != nil {
			r.wrong(change, "", "changes of partitions must be a list, not %s", change.kind)
		}
		return base
	}
	out := &node{kind: sequence, line: change.line, column: change.column}
	if base != nil && base.kind == sequence {
		out.items = slices.Clone(base.items)
	}
	for _, item := range change.items {
		i, many := matchPartition(out.items, item)
		switch {
		case many > 1:
			r.wrong(item, "name the partition that is meant", "%d partitions match this change", many)
		case many == 1:
			out.items[i] = mergePartition(out.items[i], item)
		case complete(item):
			out.items = append(out.items, item)
		default:
			r.noPartition(out.items, item)
		}
	}
	return out
}

// mergePartition keeps the order in which the file names the two sides.
func mergePartition(base, change *node) *node {
	m := merge(base, change)
	_, b := base.find("between")
	_, c := change.find("between")
	for i, k := range m.keys {
		if k.text == "between" && samePair(b, c) {
			m.values[i] = b
		}
	}
	return m
}

func complete(n *node) bool {
	_, between := n.find("between")
	_, area := n.find("area")
	return between != nil && area != nil
}

// matchPartition finds the entries that a change means.
func matchPartition(items []*node, change *node) (at, count int) {
	_, name := change.find("name")
	_, between := change.find("between")
	for i, item := range items {
		_, n := item.find("name")
		_, b := item.find("between")
		same := false
		switch {
		case name != nil:
			same = n != nil && n.text == name.text || n == nil && pairName(b) == name.text
		case between != nil:
			same = samePair(b, between)
		}
		if same {
			at, count = i, count+1
		}
	}
	return at, count
}

func pairName(b *node) string {
	if b == nil || len(b.items) != 2 {
		return ""
	}
	return b.items[0].text + " - " + b.items[1].text
}

func samePair(a, b *node) bool {
	if a == nil || b == nil || len(a.items) != 2 || len(b.items) != 2 {
		return false
	}
	x, y := a.items, b.items
	return x[0].text == y[0].text && x[1].text == y[1].text || x[0].text == y[1].text && x[1].text == y[0].text
}

func (r *reader) noPartition(items []*node, change *node) {
	var names []string
	for _, item := range items {
		if _, n := item.find("name"); n != nil {
			names = append(names, n.text)
		} else if _, b := item.find("between"); b != nil {
			names = append(names, pairName(b))
		}
	}
	_, n := change.find("name")
	if n == nil {
		r.wrong(change, "", "this change names no partition of the file; they are: %s", strings.Join(names, ", "))
		return
	}
	r.wrong(n, spelling.DidYouMean(n.text, names), "no partition %q to change; the file has %s", spelling.Clip(n.text), listed(names))
}
