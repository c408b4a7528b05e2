package decode

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"hushwake/path/boatfile/spelling"
	"hushwake/source/said"
)

// Limits that keep a hostile or broken file from eating the machine.
const (
	MaxBytes = 1 << 20 // of a boat file
	maxNodes = 50000   // after aliases are written out
	maxDepth = 40      // of nesting
)

// Kind is what a node is.
type Kind int

const (
	Scalar Kind = iota
	Mapping
	Sequence
	Null
)

// Node is one value of the file with its place. This file is the only one that knows the YAML library.
type Node struct {
	Kind         Kind
	Text         string
	Line, Column int
	Keys, Values []*Node // of a mapping
	Items        []*Node // of a sequence
}

func (k Kind) String() string {
	return [...]string{"a single value", "a mapping (key: value)", "a list", "nothing"}[k]
}

// Parse turns bytes into nodes. All it can say about a file that is no YAML comes back as problems.
func Parse(data []byte) (*Node, []Problem) {
	if p := unreadable(data); p != nil {
		return nil, []Problem{*p}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	dec := yaml.NewDecoder(bytes.NewReader(data))
	var doc yaml.Node
	if err := dec.Decode(&doc); err != nil {
		if errors.Is(err, io.EOF) {
			return nil, []Problem{emptyFile()}
		}
		return nil, []Problem{slipNear(data, syntaxProblem(err))}
	}
	b := builder{}
	root := b.build(&doc, 0)
	if b.stopped {
		return nil, b.problems
	}
	b.problems = append(b.problems, secondDocument(dec)...)
	if root == nil || root.Kind == Null {
		if len(b.problems) == 0 {
			b.problems = append(b.problems, emptyFile())
		}
		return nil, b.problems
	}
	return root, b.problems
}

func emptyFile() Problem {
	return Problem{Message: "the file is empty", Hint: "hushwake start dry-stack writes a commented boat file to begin with"}
}

// unreadable finds files that aren't text at all.
func unreadable(data []byte) *Problem {
	switch {
	case len(data) > MaxBytes:
		return &Problem{Message: fmt.Sprintf("the file holds %d bytes; a boat file may hold %d at most", len(data), MaxBytes),
			Hint: "is this the right file?"}
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}), bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		return &Problem{Message: "the file is written in UTF-16; a boat file is UTF-8 text", Hint: "save it as UTF-8"}
	}
	if bytes.IndexByte(data, 0) >= 0 {
		return &Problem{Message: "this is a binary file, not text", Hint: "is this the right file?"}
	}
	line, column := 1, 1
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			return &Problem{Line: line, Column: column, Hint: "save the file as UTF-8",
				Message: fmt.Sprintf("byte 0x%02x is not UTF-8 text", data[i])}
		case r < ' ' && r != '\n' && r != '\r' && r != '\t':
			return &Problem{Line: line, Column: column, Hint: "is this a boat file?",
				Message: fmt.Sprintf("control character 0x%02x: this is no text file", r)}
		case r == '\n':
			line, column = line+1, 0
		}
		column++
		i += size
	}
	return nil
}

func syntaxProblem(err error) Problem {
	var le *yaml.LoadError
	if errors.As(err, &le) {
		m := le.Mark
		if m.Line == 0 {
			m = le.ContextMark
		}
		text := strings.TrimSpace(le.Message)
		if le.ContextMsg != "" {
			text = strings.TrimSpace(le.ContextMsg) + ": " + text
		}
		return Problem{Line: max(m.Line, 1), Column: max(m.Column, 1), Message: "this is not valid YAML: " + text,
			Hint: syntaxHint(text)}
	}
	return Problem{Line: 1, Column: 1, Message: "this is not valid YAML: " + err.Error()}
}

// syntaxHint explains the slips people make most.
func syntaxHint(text string) string {
	for _, h := range [][2]string{
		{"mapping values are not allowed", "a text that holds \": \" needs quotes"},
		{"cannot start any token", "indent with blanks, not tabs; a text that starts with @ ` or % needs quotes"},
		{"found a tab", "indent with blanks, not tabs"},
		{"did not find expected ',' or", "a comma, } or ] is missing on this line or the one before"},
		{"did not find expected key", "check the indentation, and that every { and [ is closed"},
		{"block end", "check the indentation, and that every { and [ is closed"},
		{"unexpected end of stream", "a quote is not closed"},
		{"unknown anchor", "the name after * was never marked with &"},
	} {
		if strings.Contains(text, h[0]) {
			return h[1]
		}
	}
	return ""
}

func secondDocument(dec *yaml.Decoder) []Problem {
	var next yaml.Node
	err := dec.Decode(&next)
	switch {
	case errors.Is(err, io.EOF):
		return nil
	case err != nil:
		return []Problem{syntaxProblem(err)}
	}
	return []Problem{{Line: max(next.Line, 1), Column: max(next.Column, 1),
		Message: "a second document begins here; a boat file holds one boat", Hint: "remove the line --- or make two files"}}
}

// builder writes aliases out, within limits.
type builder struct {
	nodes    int
	stopped  bool
	via      *yaml.Node // the outermost alias that is being written out
	problems []Problem
}

func (b *builder) fail(n *yaml.Node, message, hint string) *Node {
	b.stopped = true
	if b.via != nil {
		n = b.via
	}
	b.problems = append(b.problems, Problem{Line: max(n.Line, 1), Column: max(n.Column, 1), Message: message, Hint: hint})
	return nil
}

func (b *builder) build(n *yaml.Node, depth int) *Node {
	if b.stopped {
		return nil
	}
	if b.nodes++; b.nodes > maxNodes {
		return b.fail(n, fmt.Sprintf("the file unfolds to more than %d values; its aliases multiply", maxNodes), "write the values out instead of using & and *")
	}
	if depth > maxDepth {
		return b.fail(n, fmt.Sprintf("nested deeper than %d levels", maxDepth), "an alias must not contain itself")
	}
	out := &Node{Line: max(n.Line, 1), Column: max(n.Column, 1)}
	switch n.Kind {
	case yaml.DocumentNode:
		if len(n.Content) == 0 {
			return nil
		}
		return b.build(n.Content[0], depth)
	case yaml.AliasNode:
		return b.alias(n, depth)
	case yaml.MappingNode:
		return b.mapping(n, out, depth)
	case yaml.SequenceNode:
		return b.sequence(n, out, depth)
	}
	return b.scalar(n, out)
}

// alias writes out what an alias stands for; while it does, problems are reported at the alias.
func (b *builder) alias(n *yaml.Node, depth int) *Node {
	if n.Alias == nil {
		return b.fail(n, "alias to nothing", "")
	}
	if b.via == nil {
		b.via = n
		defer func() { b.via = nil }()
	}
	return b.build(n.Alias, depth+1)
}

func (b *builder) sequence(n *yaml.Node, out *Node, depth int) *Node {
	out.Kind = Sequence
	for _, c := range n.Content {
		m := b.build(c, depth+1)
		if m == nil {
			continue
		}
		if last := len(out.Items) - 1; last >= 0 {
			if whole, ok := joined(out.Items[last], m); ok {
				out.Items[last] = whole
				continue
			}
		}
		out.Items = append(out.Items, m)
	}
	return out
}

func (b *builder) scalar(n *yaml.Node, out *Node) *Node {
	if out.Text = n.Value; strings.ContainsAny(n.Value, "\n\r\t") {
		out.Text = strings.Join(strings.Fields(n.Value), " ") // one line: a name can't write lines of its own into what is printed
	}
	if said.Foreign(n.Value) {
		b.problems = append(b.problems, Problem{Line: out.Line, Column: out.Column,
			Message: "U+FDD0 to U+FDD4 are no characters: Unicode keeps them for the inside of programs", Hint: "take them out"})
	}
	quoted := n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0
	if n.Style&yaml.TaggedStyle != 0 {
		b.problems = append(b.problems, Problem{Line: out.Line, Column: out.Column,
			Message: fmt.Sprintf("a YAML tag (%s) has no meaning in a boat file", n.Tag), Hint: "write the plain value"})
	}
	if v := strings.TrimSpace(n.Value); !quoted && (v == "" || v == "~" || strings.EqualFold(v, "null")) {
		out.Kind = Null
	}
	return out
}

func (b *builder) mapping(n *yaml.Node, out *Node, depth int) *Node {
	out.Kind = Mapping
	first := map[string]int{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := b.build(n.Content[i], depth+1), b.build(n.Content[i+1], depth+1)
		if k == nil || v == nil {
			return out
		}
		if k.Kind != Scalar {
			b.problems = append(b.problems, Problem{Line: k.Line, Column: k.Column, Message: "a key must be a plain word, not " + k.Kind.String()})
			continue
		}
		if last := len(out.Values) - 1; last >= 0 && v.Kind == Null {
			if whole, ok := joined(out.Values[last], k); ok {
				out.Values[last] = whole
				continue
			}
		}
		k, v = b.unglue(k, v)
		if line, twice := first[k.Text]; twice {
			b.problems = append(b.problems, Problem{Line: k.Line, Column: k.Column,
				Message: fmt.Sprintf("duplicate key %q: it stands on line %d already", spelling.Clip(k.Text), line), Hint: "keep one of the two"})
			continue
		}
		first[k.Text] = k.Line
		out.Keys, out.Values = append(out.Keys, k), append(out.Values, v)
	}
	return out
}

// Encode writes a tree as YAML; mappings and lists that hold single values alone stand on one line.
func (n *Node) Encode() ([]byte, error) { return yaml.Marshal(n.yaml()) }

func (n *Node) yaml() *yaml.Node {
	out := &yaml.Node{Kind: yaml.ScalarNode, Value: n.Text}
	inner := n.Items
	switch n.Kind {
	case Null:
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null", Value: "null"}
	case Sequence:
		out = &yaml.Node{Kind: yaml.SequenceNode}
	case Mapping:
		out, inner = &yaml.Node{Kind: yaml.MappingNode}, n.Values
	}
	flat := len(inner) > 0
	for i, v := range inner {
		if n.Kind == Mapping {
			out.Content = append(out.Content, n.Keys[i].yaml())
		}
		out.Content = append(out.Content, v.yaml())
		flat = flat && v.Kind == Scalar
	}
	if flat && n.Kind != Scalar {
		out.Style = yaml.FlowStyle
	}
	return out
}

// Find gives the key and value of a mapping, nil when it isn't there.
func (n *Node) Find(key string) (*Node, *Node) {
	if n == nil {
		return nil, nil
	}
	for i, k := range n.Keys {
		if k.Text == key {
			return k, n.Values[i]
		}
	}
	return nil, nil
}

// Unknown tells whether the owner said that he doesn't know.
func (n *Node) Unknown() bool {
	if n == nil || n.Kind == Null {
		return true
	}
	if n.Kind != Scalar {
		return false
	}
	switch strings.ToLower(strings.TrimSpace(strings.ReplaceAll(n.Text, "\u2019", "'"))) {
	case "unknown", "don't know", "dont know", "do not know", "not known", "?":
		return true
	}
	return false
}
