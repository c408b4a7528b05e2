package overlay

import (
	"slices"
	"strings"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/spelling"
)

// Names lays a mapping of names over another. A name that the file doesn't have must be spelled
// right, so one that is close to an existing name is taken for a slip.
func Names(r *decode.Reader, base, change *decode.Node, what string) *decode.Node {
	if change == nil {
		return base
	}
	if base == nil || base.Kind != decode.Mapping {
		base = &decode.Node{Kind: decode.Mapping, Line: change.Line, Column: change.Column}
	}
	if change.Kind != decode.Mapping {
		r.Wrong(change, "", "changes of %ss must be a mapping of names, not %s", what, change.Kind)
		return base
	}
	var names []string
	for _, k := range base.Keys {
		names = append(names, k.Text)
	}
	for i, k := range change.Keys {
		if slices.Contains(names, k.Text) {
			continue
		}
		near := spelling.Nearest(k.Text, names)
		_, size := change.Values[i].Find("size")
		if what == "engine" || near != "" || size == nil {
			r.Wrong(k, spelling.DidYouMean(k.Text, names), "no %s %q to change; the file has %s", what, spelling.Clip(k.Text), decode.Listed(names))
		}
	}
	return merge(base, change)
}

// merge lays b over a: mappings merge key by key, everything else is replaced.
func merge(a, b *decode.Node) *decode.Node {
	if a == nil || b == nil || a.Kind != decode.Mapping || b.Kind != decode.Mapping {
		if b == nil {
			return a
		}
		return b
	}
	out := &decode.Node{Kind: decode.Mapping, Line: a.Line, Column: a.Column}
	for i, k := range a.Keys {
		out.Keys = append(out.Keys, k)
		if _, v := b.Find(k.Text); v != nil {
			out.Values = append(out.Values, merge(a.Values[i], v))
		} else {
			out.Values = append(out.Values, a.Values[i])
		}
	}
	for i, k := range b.Keys {
		if _, v := a.Find(k.Text); v == nil {
			out.Keys, out.Values = append(out.Keys, k), append(out.Values, b.Values[i])
		}
	}
	return out
}

// Partitions lays entries over those with the same name or, without a name, between the same
// spaces. A complete entry that matches none is added.
func Partitions(r *decode.Reader, base, change *decode.Node) *decode.Node {
	if change == nil || change.Kind != decode.Sequence {
		if change != nil {
			r.Wrong(change, "", "changes of partitions must be a list, not %s", change.Kind)
		}
		return base
	}
	out := &decode.Node{Kind: decode.Sequence, Line: change.Line, Column: change.Column}
	if base != nil && base.Kind == decode.Sequence {
		out.Items = slices.Clone(base.Items)
	}
	for _, item := range change.Items {
		i, many := matchPartition(out.Items, item)
		switch {
		case many > 1:
			r.Wrong(item, "name the partition that is meant", "%d partitions match this change", many)
		case many == 1:
			out.Items[i] = mergePartition(out.Items[i], item)
		case complete(item):
			out.Items = append(out.Items, item)
		default:
			noPartition(r, out.Items, item)
		}
	}
	return out
}

// mergePartition keeps the order in which the file names the two sides.
func mergePartition(base, change *decode.Node) *decode.Node {
	m := merge(base, change)
	_, b := base.Find("between")
	_, c := change.Find("between")
	for i, k := range m.Keys {
		if k.Text == "between" && samePair(b, c) {
			m.Values[i] = b
		}
	}
	return m
}

func complete(n *decode.Node) bool {
	_, between := n.Find("between")
	_, area := n.Find("area")
	return between != nil && area != nil
}

// matchPartition finds the entries that a change means.
func matchPartition(items []*decode.Node, change *decode.Node) (at, count int) {
	_, name := change.Find("name")
	_, between := change.Find("between")
	for i, item := range items {
		_, n := item.Find("name")
		_, b := item.Find("between")
		same := false
		switch {
		case name != nil:
			same = n != nil && n.Text == name.Text || n == nil && pairName(b) == name.Text
		case between != nil:
			same = samePair(b, between)
		}
		if same {
			at, count = i, count+1
		}
	}
	return at, count
}

func pairName(b *decode.Node) string {
	if b == nil || len(b.Items) != 2 {
		return ""
	}
	return b.Items[0].Text + " - " + b.Items[1].Text
}

func samePair(a, b *decode.Node) bool {
	if a == nil || b == nil || len(a.Items) != 2 || len(b.Items) != 2 {
		return false
	}
	x, y := a.Items, b.Items
	return x[0].Text == y[0].Text && x[1].Text == y[1].Text || x[0].Text == y[1].Text && x[1].Text == y[0].Text
}

func noPartition(r *decode.Reader, items []*decode.Node, change *decode.Node) {
	var names []string
	for _, item := range items {
		if _, n := item.Find("name"); n != nil {
			names = append(names, n.Text)
		} else if _, b := item.Find("between"); b != nil {
			names = append(names, pairName(b))
		}
	}
	_, n := change.Find("name")
	if n == nil {
		r.Wrong(change, "", "this change names no partition of the file; they are: %s", strings.Join(names, ", "))
		return
	}
	r.Wrong(n, spelling.DidYouMean(n.Text, names), "no partition %q to change; the file has %s", spelling.Clip(n.Text), decode.Listed(names))
}
