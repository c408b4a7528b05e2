package edit

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

// splice puts a text in for some bytes.
type splice struct {
	from, to int
	text     string
}

// commit makes the new text, in which a spot holds another node or, if nil, is gone, and holds it only if it reads so.
func (d *doc) commit(s *spot, with *node, all ...splice) ([]byte, error) {
	want := with
	if s != nil {
		if name := d.named(s, with); name != "" {
			return nil, fmt.Errorf("other places of the file name this value by *%s\nhint: write it out there first", name)
		}
		want = s.replaced(with)
	}
	slices.SortStableFunc(all, func(a, b splice) int { return a.from - b.from })
	out := make([]byte, 0, len(d.text)+512)
	at := 0
	for _, s := range all {
		if s.from < at || s.to < s.from {
			return nil, errLost
		}
		out = append(append(out, d.text[at:s.from]...), strings.ReplaceAll(s.text, "\n", d.nl)...)
		at = s.to
	}
	out = append(out, d.text[at:]...)
	is, err := parse(out)
	if err == nil && same(is.root, want) {
		return out, nil
	}
	return nil, errors.Join(errLost, err)
}

// named is the mark of a value that changes with a spot, or goes, while another place names it.
func (d *doc) named(s *spot, with *node) string {
	var marks, stay []string
	for up := s; up != nil; up = up.up {
		marks = append(marks, up.anchor)
	}
	s.walk(func(n *node) { marks = append(marks, n.anchor) })
	if with != nil {
		for _, n := range slices.Concat(with.keys, with.kids) {
			n.walk(func(n *node) { stay = append(stay, n.anchor) })
		}
	}
	found := ""
	d.root.walk(func(n *node) {
		if n.kind == yaml.AliasNode && slices.Contains(marks, n.value) && !slices.Contains(stay, n.value) {
			found = n.value
		}
	})
	return found
}

// begin writes the first value of a text that has none.
func (d *doc) begin(v *node) ([]byte, error) {
	text := inline(v, false, 0)
	if v.lines() {
		text = v.raw
	}
	if at := len(d.text); at > 0 && lineEnd(d.text, d.breaks.starts[len(d.breaks.starts)-1]) > d.breaks.starts[len(d.breaks.starts)-1] {
		text = "\n" + text
	}
	return d.commit(nil, v, splice{len(d.text), len(d.text), text + "\n"})
}

// within wraps a value into the mappings and lists of a place; the outermost as many as told are written line by line.
func within(place []string, v *node, rows int) *node {
	for i := len(place) - 1; i >= 0; i-- {
		v = wrapped(place[i], v, i < rows || v.lines())
	}
	return v
}

func wrapped(key string, v *node, lines bool) *node {
	n := &node{kind: yaml.SequenceNode, tag: "!!seq", flow: !lines, kids: []*node{v}}
	if key == "-" || key == "0" {
		n.raw = dashed(v, 0)
	} else {
		k := keyOf(key)
		n.kind, n.tag, n.keys, n.raw = yaml.MappingNode, "!!map", []*node{k}, keyed(k, v, 0)
	}
	if n.flow {
		n.raw = inline(n, true, 0)
	}
	return n
}

func keyOf(key string) *node {
	d, err := parseFresh([]byte(Quote(key)))
	if err != nil || d.root == nil {
		return &node{kind: yaml.ScalarNode, value: key, tag: "!!str", raw: Quote(key)}
	}
	return d.root
}

// keyed and dashed are an entry of a block at an indentation, without the blanks before it.
func keyed(key, v *node, indent int) string {
	if v.lines() {
		return key.raw + ":\n" + strings.Repeat(" ", indent+2) + shifted(v.raw, indent+2)
	}
	return key.raw + ": " + inline(v, false, indent+2)
}

func dashed(v *node, indent int) string {
	if v.lines() {
		return "- " + shifted(v.raw, indent+2)
	}
	return "- " + inline(v, false, indent+2)
}

// put replaces a node.
func (d *doc) put(s *spot, v *node) ([]byte, error) {
	n := s.node
	flow := s.up != nil && s.up.flow
	below := n.mark >= 0 && n.lines() && lineEnd(d.text, n.mark) < n.content // on lines under its key or dash
	switch {
	case v.lines() && !flow:
		return d.commit(s, v, d.putLines(s, v, below)...)
	case below:
		end := lineEnd(d.text, n.mark)
		all := []splice{{n.mark + 1, n.mark + 1, " " + inline(v, flow, d.indentation(n.mark)+2)}, {end, lineEnd(d.text, n.end), ""}}
		if n.start < n.content {
			all = append(all, splice{n.start, properties(d.text, n.start), ""})
		}
		return d.commit(s, v, all...)
	}
	text := inline(v, flow, d.indentation(n.start)+2)
	switch {
	case n.empty() && n.mark >= 0:
		text = " " + text
	case n.empty() && flow:
		text = ": " + text
	}
	return d.commit(s, v, splice{n.start, n.end, text})
}

// putLines replaces a node by a block on lines of its own.
func (d *doc) putLines(s *spot, v *node, below bool) []splice {
	n := s.node
	switch {
	case below:
		all := []splice{{n.content, n.end, shifted(v.raw, d.column(n.content))}}
		if n.start < n.content {
			all = append(all, splice{n.start, properties(d.text, n.start), ""})
		}
		return all
	case s.up == nil || s.up.kind == yaml.SequenceNode:
		column, blank := d.column(n.start), ""
		if n.empty() && s.up != nil {
			column, blank = d.column(n.mark)+2, " "
		}
		return []splice{{n.start, n.end, blank + shifted(v.raw, column)}}
	}
	indent, end := d.column(s.up.keys[s.at].start)+2, lineEnd(d.text, n.end)
	from := n.start
	if !n.empty() && d.text[from-1] == ' ' {
		from--
	}
	return []splice{{from, n.end, ""}, {end, end, "\n" + strings.Repeat(" ", indent) + shifted(v.raw, indent)}}
}

// indentation is that of the line of a byte.
func (d *doc) indentation(at int) int {
	line, _ := d.breaks.position(d.text, at)
	from := d.breaks.starts[line-1]
	return len(d.text[from:]) - len(strings.TrimLeft(d.text[from:], " "))
}

// addKey adds an entry to a mapping.
func (d *doc) addKey(s *spot, key string, v *node) ([]byte, error) {
	n, k := *s.node, keyOf(key)
	n.keys, n.kids = append(slices.Clone(n.keys), k), append(slices.Clone(n.kids), v)
	if !n.flow {
		pad := d.column(n.keys[0].start)
		return d.commit(s, &n, d.under(n.end, keyed(k, v, pad), pad))
	}
	text := k.raw + ": " + inline(v, true, d.indentation(n.content)+2)
	switch braced := d.text[n.content] == '{'; {
	case !braced:
		return d.commit(s, &n, splice{n.content, n.content, "{"}, splice{n.end, n.end, ", " + text + "}"})
	case len(s.kids) == 0:
		return d.commit(s, &n, splice{n.content + 1, n.content + 1, text})
	}
	return d.commit(s, &n, d.behind(s.kids[len(s.kids)-1], text))
}

// append adds an item to a list.
func (d *doc) append(s *spot, v *node) ([]byte, error) {
	n := *s.node
	n.kids = append(slices.Clone(n.kids), v)
	if !n.flow {
		pad := d.column(n.content)
		return d.commit(s, &n, d.under(n.end, dashed(v, pad), pad))
	}
	text := inline(v, true, d.indentation(n.content)+2)
	if len(s.kids) == 0 {
		return d.commit(s, &n, splice{n.content + 1, n.content + 1, text})
	}
	return d.commit(s, &n, d.behind(s.kids[len(s.kids)-1], text))
}

// under puts a line below that of a byte.
func (d *doc) under(at int, text string, pad int) splice {
	end := lineEnd(d.text, at)
	return splice{end, end, "\n" + strings.Repeat(" ", pad) + text}
}

// behind puts an entry after the last one within brackets.
func (d *doc) behind(last *node, text string) splice {
	comma := ", "
	if last.empty() {
		comma = " , "
	}
	return splice{last.end, last.end, comma + text}
}
