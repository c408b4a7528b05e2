// Package edit changes the text of a boat file at a place and keeps every other byte: comments, order, quotes, line ends.
//
// A place is a JSON pointer (RFC 6901) into the YAML, lists by index: /layouts/1/exhausts/main/line/0/pipe/bore. The text is
// the truth: bytes are put in and taken out at the places of its values, and the new text is read again. It must say what was
// meant at the place and all that it said elsewhere, else the text stays as it is and an error says so. A value to write is
// YAML itself: `1500 rpm`, `{bore: 4 in}`, `unknown`; Quote makes one of any text.
package edit

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"hushwake/path/boatfile/spelling"
)

// Get is the value at a place as it is written, quotes and all, comments off; false where nothing stands there. Plain takes
// the quotes off.
func Get(text []byte, at string) (value string, ok bool) {
	d, err := parse(text)
	if err != nil {
		return "", false
	}
	s, rest, err := d.find(at)
	if err != nil || s == nil || len(rest) > 0 {
		return "", false
	}
	return d.standing(d.bare(s.node)).raw, true
}

// Set puts one YAML value at a place. A missing key is added, missing parents too: mappings, and a list where the place goes
// on with 0 or -. What is unknown gives way to a mapping; any other single value in the way is an error.
func Set(text []byte, at, to string) ([]byte, error) {
	v, err := valueOf(to)
	if err != nil {
		return nil, err
	}
	d, s, rest, err := open(text, at)
	if err != nil {
		return nil, err
	}
	return d.set(at, s, rest, v)
}

func (d *doc) set(at string, s *spot, rest []string, v *node) ([]byte, error) {
	switch {
	case s == nil:
		return d.begin(within(rest, v, 2))
	case len(rest) == 0:
		return d.put(s, v)
	case s.kind == yaml.MappingNode:
		return d.addKey(s, rest[0], within(rest[1:], v, s.rows(1)))
	case s.kind == yaml.SequenceNode:
		if n, ok := index(rest[0]); rest[0] != "-" && (!ok || n != len(s.kids)) {
			return nil, fmt.Errorf("no place %s: the list there has %d entries\nhint: count from 0", at, len(s.kids))
		}
		return d.append(s, within(rest[1:], v, 0))
	case s.kind == yaml.ScalarNode && s.unknown():
		return d.put(s, within(rest, v, s.rows(2)))
	}
	return nil, fmt.Errorf("no place %s: %q stands there and holds nothing\nhint: write unknown there first", at, spelling.Clip(s.raw))
}

// rows is how many levels below a spot are begun on lines of their own: those of a file's first two.
func (s *spot) rows(levels int) int {
	for ; s.up != nil; s = s.up {
		levels--
	}
	return max(levels, 0)
}

// unknown says whether a single value stands for nothing that is known.
func (n *node) unknown() bool { return n.null() || n.value == "unknown" || n.value == "?" }

// Unknown says that the value at a place is not known.
func Unknown(text []byte, at string) ([]byte, error) { return Set(text, at, "unknown") }

// Add appends an item to the list at a place, and makes the list where it is missing or unknown.
func Add(text []byte, at, item string) ([]byte, error) {
	v, err := valueOf(item)
	if err != nil {
		return nil, err
	}
	d, s, rest, err := open(text, at)
	if err != nil {
		return nil, err
	}
	if s == nil || len(rest) > 0 || s.kind == yaml.ScalarNode && s.unknown() {
		return d.set(at+"/-", s, append(rest, "-"), v)
	}
	if s.kind != yaml.SequenceNode {
		return nil, fmt.Errorf("%s is no list: %q", at, spelling.Clip(s.raw))
	}
	return d.append(s, v)
}

// Insert puts an item before the list item at a place.
func Insert(text []byte, at, item string) ([]byte, error) {
	v, err := valueOf(item)
	if err != nil {
		return nil, err
	}
	d, s, err := existing(text, at)
	if err != nil {
		return nil, err
	}
	if s.up == nil || s.up.kind != yaml.SequenceNode {
		return nil, fmt.Errorf("%s is no item of a list\nhint: name the item before which it goes", at)
	}
	list := *s.up.node
	list.kids = slices.Insert(slices.Clone(list.kids), s.at, v)
	if list.flow {
		return d.commit(s.up, &list, splice{s.start, s.start, inline(v, true, d.indentation(s.start)) + ", "})
	}
	pad := d.column(s.mark)
	return d.commit(s.up, &list, splice{s.mark, s.mark, dashed(v, pad) + "\n" + strings.Repeat(" ", pad)})
}

// Remove takes the entry at a place out, with its key and the comment at the end of its line; comments on lines of their own
// under it only where a text behind a bar above would take them in.
func Remove(text []byte, at string) ([]byte, error) {
	d, s, err := existing(text, at)
	if err != nil {
		return nil, err
	}
	if s.up == nil {
		return nil, fmt.Errorf("the whole file can't be taken out")
	}
	return d.remove(s)
}

// CopyLayout appends a copy of the layout of one name under another, written as it stands, at the end of the list, so that
// no other layout changes its place. It is a full copy, not `like:` the other: each of its parts has a place of its own that can be
// changed, and what later happens to the other leaves it alone. A layout that is like a third stays so. Readings stay with the
// layout at which they were taken.
func CopyLayout(text []byte, from, as string) ([]byte, error) {
	d, s, err := existing(text, "/layouts")
	if err != nil {
		return nil, err
	}
	was := -1
	for i, l := range s.kids {
		switch l.named() {
		case as:
			return nil, fmt.Errorf("there is a layout %q already\nhint: choose another name", spelling.Clip(as))
		case from:
			was = i
		}
	}
	if was < 0 || s.kind != yaml.SequenceNode {
		return nil, fmt.Errorf("no layout %q", spelling.Clip(from))
	}
	copied, err := d.append(s, d.standing(s.kids[was]))
	if err != nil {
		return nil, err
	}
	return Set(copied, fmt.Sprintf("/layouts/%d/name", len(s.kids)), Quote(as))
}

// named is the name that a mapping holds.
func (n *node) named() string {
	if i := slices.IndexFunc(n.keys, func(k *node) bool { return k.value == "name" }); i >= 0 {
		return n.kids[i].value
	}
	return ""
}

func open(text []byte, at string) (d *doc, s *spot, rest []string, err error) {
	if d, err = parse(text); err == nil {
		s, rest, err = d.find(at)
	}
	return d, s, rest, err
}

func existing(text []byte, at string) (*doc, *spot, error) {
	d, s, rest, err := open(text, at)
	if err == nil && (s == nil || len(rest) > 0) {
		err = fmt.Errorf("no place %s in the file", at)
	}
	return d, s, err
}
