package edit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// spot is a node with the way to it; the root has no spot above.
type spot struct {
	*node
	up *spot
	at int // among the kids of the spot above
}

// tokens takes a JSON pointer apart (RFC 6901, section 3).
func tokens(at string) ([]string, error) {
	if at == "" {
		return nil, nil
	}
	if !utf8.ValidString(at) {
		return nil, fmt.Errorf("place %q is not UTF-8", at)
	}
	if at[0] != '/' {
		return nil, fmt.Errorf("place %q does not begin with /\nhint: write it like /engines/main/rated/power", at)
	}
	all := strings.Split(at[1:], "/")
	for i, t := range all {
		if strings.Count(t, "~") != strings.Count(t, "~0")+strings.Count(t, "~1") {
			return nil, fmt.Errorf("place %q holds a ~ by itself\nhint: write ~0 for ~ and ~1 for /", at)
		}
		all[i] = strings.NewReplacer("~1", "/", "~0", "~").Replace(t)
	}
	return all, nil
}

// token is a key as it stands in a place.
func token(key string) string { return strings.NewReplacer("~", "~0", "/", "~1").Replace(key) }

// index reads a list index as RFC 6901, section 4, has it: no sign, no zero in front.
func index(t string) (int, bool) {
	i, err := strconv.Atoi(t)
	return i, err == nil && i >= 0 && strconv.Itoa(i) == t
}

// find goes down a place as far as it exists; rest is what of it does not.
func (d *doc) find(at string) (s *spot, rest []string, err error) {
	all, err := tokens(at)
	if err != nil || d.root == nil {
		return nil, all, err
	}
	s = &spot{node: d.root}
	for i, t := range all {
		k := -1
		switch s.kind {
		case yaml.MappingNode:
			k = slices.IndexFunc(s.keys, func(n *node) bool { return n.kind == yaml.ScalarNode && n.value == t })
		case yaml.SequenceNode:
			if n, ok := index(t); ok && n < len(s.kids) {
				k = n
			}
		case yaml.AliasNode:
			return nil, nil, fmt.Errorf("%s stands in *%s, which is written elsewhere\nhint: change it where &%s stands", at, s.value, s.value)
		}
		if k < 0 {
			return s, all[i:], nil
		}
		s = &spot{node: s.kids[k], up: s, at: k}
	}
	return s, nil, nil
}

// replaced is the whole tree with another node at a spot; nil takes the entry out.
func (s *spot) replaced(with *node) *node {
	if s.up == nil {
		return with
	}
	up := *s.up.node
	if with == nil {
		up.kids = slices.Delete(slices.Clone(up.kids), s.at, s.at+1)
		if len(up.keys) > 0 {
			up.keys = slices.Delete(slices.Clone(up.keys), s.at, s.at+1)
		}
		return s.up.replaced(&up)
	}
	up.kids = slices.Clone(up.kids)
	up.kids[s.at] = with
	return s.up.replaced(&up)
}

// head is where the entry of a kid begins: its key, its dash, or itself.
func (n *node) head(i int) int {
	switch {
	case n.kind == yaml.MappingNode:
		return n.keys[i].start
	case n.kids[i].mark >= 0:
		return n.kids[i].mark
	}
	return n.kids[i].start
}

// Pointer is the place of what stands at a line and column (from 1, in characters): the nearest that encloses it, of a key its
// value; the whole file ("") where nothing does or the text is no YAML.
func Pointer(text []byte, line, column int) string {
	d, err := parse(text)
	if err != nil || d.root == nil {
		return ""
	}
	at := d.breaks.offset(d.text, line, column)
	place := ""
	for n := d.root; ; {
		k := slices.IndexFunc(n.kids, func(kid *node) bool { return at <= kid.end })
		if k < 0 || at < n.head(k) {
			return place
		}
		t := strconv.Itoa(k)
		if n.kind == yaml.MappingNode {
			t = token(n.keys[k].value)
		}
		place, n = place+"/"+t, n.kids[k]
	}
}
