package edit

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v4"

	"hushwake/path/boatfile/spelling"
)

// Quote writes any text as one YAML value on one line that holds in braces and out of them, in quotes only where it needs
// them. A figure stays a figure; what would be nothing (an empty text, null, ~) is put in quotes.
func Quote(text string) string {
	if plain(text) {
		return text
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteString(`\` + string(r))
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case hidden(r):
			fmt.Fprintf(&b, `\U%08X`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String() + `"`
}

// plain says whether a text needs no quotes: behind a dash, in brackets and as a key it is what it says.
func plain(text string) bool {
	if text == "" || strings.TrimFunc(text, unicode.IsSpace) != text || strings.ContainsAny(text, ",[]{}\"\\") || strings.ContainsFunc(text, hidden) {
		return false
	}
	d, err := parseFresh([]byte(text + ": " + text + "\nl: [" + text + "]\n"))
	if err != nil || d.root == nil || len(d.root.kids) != 2 || len(d.root.kids[1].kids) != 1 {
		return false
	}
	for _, n := range []*node{d.root.keys[0], d.root.kids[0], d.root.kids[1].kids[0]} {
		if n.kind != yaml.ScalarNode || n.raw != text || n.value != text || n.null() || n.content != n.start {
			return false
		}
	}
	return true
}

// hidden are characters that a text on one line can't hold as they are.
func hidden(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co) || r >= 0xfff0 && r <= 0xffff || r&0xfffe == 0xfffe
}

// Plain is the text that a single YAML value stands for, quotes and escapes off; a mapping or list stays as it is written.
func Plain(value string) string {
	if d, err := parseFresh([]byte(value)); err == nil && d.root != nil && d.root.kind == yaml.ScalarNode {
		return d.root.value
	}
	return value
}

// valueOf reads what is to be written: one YAML value.
func valueOf(text string) (*node, error) {
	d, err := parseFresh([]byte(text))
	switch {
	case err != nil:
		return nil, fmt.Errorf("%q is not one YAML value: %w", spelling.Clip(text), err)
	case d.root == nil:
		return nil, errors.New("there is no value to write\nhint: write unknown, or take the entry out")
	case skipAll(text, d.root.end) < len(text):
		return nil, fmt.Errorf("%q is more than one YAML value", spelling.Clip(text))
	case anchored(d.root):
		return nil, fmt.Errorf("%q marks or names another value with & or *\nhint: write the value out", spelling.Clip(text))
	}
	return d.standing(d.root), nil
}

// standing is a node as a text of its own: lines behind the first lose the indentation of its column, line ends are plain.
func (d *doc) standing(n *node) *node {
	out := *n
	column := d.column(n.start)
	all := rows(n.raw)
	for i, l := range all[1:] {
		deep := len(l) - len(strings.TrimLeft(l, " "))
		all[i+1] = l[min(deep, column):]
	}
	out.raw = strings.Join(all, "\n")
	return &out
}

// rows are the lines of a text without their ends.
func rows(s string) (all []string) {
	for i := 0; ; {
		end := lineEnd(s, i)
		all = append(all, s[i:end])
		if end == len(s) {
			return all
		}
		i = end + breakAt(s, end)
	}
}

func anchored(n *node) (is bool) {
	n.walk(func(n *node) { is = is || n.anchor != "" || n.kind == yaml.AliasNode })
	return is
}

// inline is a value as it goes behind a key or a dash, or into braces; continuation lines stand at indent.
func inline(n *node, flow bool, indent int) string {
	switch {
	case n.kind == yaml.ScalarNode:
		if n.block || len(rows(n.raw)) > 1 || flow && !n.quoted && strings.ContainsAny(n.raw, ",[]{}") {
			return Quote(n.value)
		}
		return n.raw
	case n.flow && (n.kind == yaml.AliasNode || n.raw != "" && strings.ContainsRune("[{&!", rune(n.raw[0]))):
		return shifted(n.raw, indent)
	case n.kind == yaml.AliasNode:
		return n.raw
	}
	parts := make([]string, len(n.kids))
	for i, k := range n.kids {
		if parts[i] = inline(k, true, indent); n.kind == yaml.MappingNode {
			parts[i] = strings.TrimRight(inline(n.keys[i], true, indent)+": "+parts[i], " ")
		}
	}
	if n.kind == yaml.MappingNode {
		return "{" + strings.Join(parts, ", ") + "}"
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// shifted is a text with the lines behind the first moved to an indentation.
func shifted(text string, indent int) string {
	return strings.ReplaceAll(text, "\n", "\n"+strings.Repeat(" ", indent))
}

// bare is a node whose written form has no comments.
func (d *doc) bare(n *node) *node {
	if !strings.Contains(n.raw, "#") || n.kind == yaml.ScalarNode {
		return n
	}
	var b strings.Builder
	at := n.start
	gap := func(to int) {
		for at < to {
			if d.text[at] != '#' {
				b.WriteByte(d.text[at])
				at++
				continue
			}
			at = lineEnd(d.text, at)
		}
	}
	n.walk(func(leaf *node) {
		if leaf.kind == yaml.ScalarNode || leaf.kind == yaml.AliasNode {
			gap(leaf.start)
			b.WriteString(leaf.raw)
			at = leaf.end
		}
	})
	gap(n.end)
	out := *n
	all := rows(b.String())
	for i := range all[:len(all)-1] {
		all[i] = strings.TrimRight(all[i], " \t")
	}
	out.raw = strings.Join(all, "\n")
	return &out
}

// walk visits a node and all below it in the order in which they are written, keys too.
func (n *node) walk(visit func(*node)) {
	visit(n)
	for i, k := range n.kids {
		if n.kind == yaml.MappingNode {
			n.keys[i].walk(visit)
		}
		k.walk(visit)
	}
}
