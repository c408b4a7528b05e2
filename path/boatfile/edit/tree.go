package edit

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"sync"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// most bytes that a boat file may hold.
const most = 1 << 20

// node is one value of the text with the bytes that it takes.
type node struct {
	kind       yaml.Kind
	flow       bool   // written in brackets or braces, or as a pair within brackets
	block      bool   // a text on lines of its own behind | or >
	quoted     bool   // a text in quotes
	value, tag string // of a scalar: what it says; of an alias: what it names
	anchor     string
	raw        string // as it is written
	start, end int    // bytes in the text, with anchor and tag
	content    int    // where it begins behind anchor and tag
	mark       int    // of its colon or dash; -1 where it has none
	keys, kids []*node
}

func (n *node) null() bool { return n.kind == yaml.ScalarNode && n.tag == "!!null" }

// empty says that nothing is written at all.
func (n *node) empty() bool { return n.start == n.end }

// lines says whether it is a mapping or list that is written line by line.
func (n *node) lines() bool {
	return !n.flow && (n.kind == yaml.MappingNode || n.kind == yaml.SequenceNode)
}

// doc is a text with its tree; root is nil where only comments stand.
type doc struct {
	text   string
	root   *node
	breaks lineTable
	nl     string // the line end of the text
}

// recent are the two texts read last: a change is made to the one and gives the other.
var recent struct {
	sync.Mutex
	docs [2]*doc
}

// parse reads a text; one of the two read last again for nothing.
func parse(text []byte) (*doc, error) {
	recent.Lock()
	defer recent.Unlock()
	for _, d := range recent.docs {
		if d != nil && d.text == string(text) {
			return d, nil
		}
	}
	d, err := parseFresh(text)
	if err == nil {
		recent.docs = [2]*doc{d, recent.docs[0]}
	}
	return d, err
}

func parseFresh(text []byte) (*doc, error) {
	switch {
	case len(text) > most:
		return nil, fmt.Errorf("the text holds %d bytes; a boat file may hold %d at most", len(text), most)
	case !utf8.Valid(text):
		return nil, errors.New("the text is not UTF-8\nhint: save the file as UTF-8")
	}
	var n yaml.Node
	if err := yaml.NewDecoder(bytes.NewReader(bytes.TrimPrefix(text, bom))).Decode(&n); err != nil && !errors.Is(err, errEnd) {
		return nil, fmt.Errorf("this is not valid YAML: %w", err)
	}
	d := &doc{text: string(text), nl: "\n"}
	d.breaks = newLineTable(d.text)
	if bytes.Contains(text, []byte("\r\n")) {
		d.nl = "\r\n"
	}
	if len(n.Content) == 0 {
		return d, nil
	}
	var err error
	d.root, err = d.place(n.Content[0], -1, -1)
	return d, err
}

// errLost tells that a value isn't where the parser says; the text is then left alone.
var errLost = errors.New("this YAML is written in a way that can't be changed at a place\nhint: change it in an editor")

// place gives a node its bytes; indent is the column (from 0) of the block around it, mark where its colon or dash stands.
func (d *doc) place(y *yaml.Node, indent, mark int) (*node, error) {
	n := &node{kind: y.Kind, value: y.Value, tag: y.Tag, anchor: y.Anchor, mark: mark, start: d.breaks.offset(d.text, y.Line, y.Column)}
	n.flow = y.Style&yaml.FlowStyle != 0
	n.block = y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0
	n.quoted = y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0
	n.content, n.end = n.start, n.start
	if y.Anchor != "" || y.Style&yaml.TaggedStyle != 0 {
		n.end = properties(d.text, n.start)
		n.content = skipAll(d.text, n.end)
	}
	var err error
	switch {
	case y.Kind == yaml.MappingNode:
		err = d.placeMapping(n, y)
	case y.Kind == yaml.SequenceNode:
		err = d.placeList(n, y)
	case y.Kind == yaml.AliasNode:
		n.end = n.start + 1 + len(y.Value)
	case y.Value == "" && !n.quoted && !n.block:
		if n.end == n.start && mark >= 0 {
			n.start, n.content, n.end = mark+1, mark+1, mark+1
		}
	default:
		n.end = scalarEnd(d.text, n, indent)
	}
	if err == nil && (n.end < n.start || n.end > len(d.text)) {
		err = errLost
	}
	if err != nil {
		return nil, err
	}
	n.raw = d.text[n.start:n.end]
	return n, nil
}

// column is where a byte stands in its line, from 0.
func (d *doc) column(at int) int {
	_, column := d.breaks.position(d.text, at)
	return column - 1
}

func (d *doc) placeMapping(n *node, y *yaml.Node) error {
	inner := -1
	if len(y.Content) > 0 && !n.flow {
		inner = y.Content[0].Column - 1
	}
	braced := n.flow && n.content < len(d.text) && d.text[n.content] == '{'
	n.end = n.content
	if braced {
		n.end++
	}
	n.keys, n.kids = make([]*node, 0, len(y.Content)/2), make([]*node, 0, len(y.Content)/2)
	for i := 0; i+1 < len(y.Content); i += 2 {
		key, err := d.place(y.Content[i], inner, -1)
		if err != nil {
			return err
		}
		colon := skipAll(d.text, key.end)
		if colon >= len(d.text) || d.text[colon] != ':' {
			colon = -1
		}
		kid, err := d.place(y.Content[i+1], inner, colon)
		if err != nil {
			return err
		}
		if colon < 0 {
			if kid.end != kid.start {
				return errLost
			}
			kid.start, kid.content, kid.end = key.end, key.end, key.end
		}
		n.keys, n.kids, n.end = append(n.keys, key), append(n.kids, kid), kid.end
	}
	if braced {
		return d.close(n, '}')
	}
	return nil
}

func (d *doc) placeList(n *node, y *yaml.Node) error {
	n.end = n.content
	inner := -1
	if n.flow {
		n.end++
	} else {
		inner = d.column(n.content)
	}
	n.kids = make([]*node, 0, len(y.Content))
	for _, c := range y.Content {
		dash := -1
		if !n.flow {
			if dash = skipAll(d.text, n.end); dash >= len(d.text) || d.text[dash] != '-' {
				return errLost
			}
		}
		kid, err := d.place(c, inner, dash)
		if err != nil {
			return err
		}
		n.kids, n.end = append(n.kids, kid), kid.end
	}
	if n.flow {
		return d.close(n, ']')
	}
	return nil
}

// close finds the bracket that ends a flow collection behind its last value.
func (d *doc) close(n *node, with byte) error {
	for i := n.end; ; i++ {
		if i = skipAll(d.text, i); i >= len(d.text) {
			return errLost
		}
		switch d.text[i] {
		case with:
			n.end = i + 1
			return nil
		case ',':
		default:
			return errLost
		}
	}
}

// same compares two trees by what they say, not by how it is written.
func same(a, b *node) bool {
	switch {
	case a == nil || b == nil:
		return a == b
	case a.kind != b.kind || a.tag != b.tag:
		return false
	case a.kind == yaml.AliasNode || a.kind == yaml.ScalarNode && !a.null():
		return a.value == b.value
	}
	return slices.EqualFunc(a.keys, b.keys, same) && slices.EqualFunc(a.kids, b.kids, same)
}
