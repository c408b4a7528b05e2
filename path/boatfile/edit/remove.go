package edit

import (
	"strings"

	"go.yaml.in/yaml/v4"
)

// remove takes an entry out of its mapping or list.
func (d *doc) remove(s *spot) ([]byte, error) {
	up := s.up
	pair := up.flow && up.kind == yaml.MappingNode && d.text[up.content] != '{'
	if len(up.kids) == 1 && (!up.flow || pair) {
		none := &node{kind: up.kind, tag: up.tag, flow: true, raw: "{}"}
		if up.kind == yaml.SequenceNode {
			none.raw = "[]"
		}
		return d.put(up, none)
	}
	if up.flow {
		return d.commit(s, nil, d.outOfFlow(up.node, s.at)...)
	}
	head := up.head(s.at)
	line, _ := d.breaks.position(d.text, head)
	from, to := d.breaks.starts[line-1], lineEnd(d.text, s.end)
	switch {
	case strings.Trim(d.text[from:head], " ") != "": // it begins behind the dash of a list
		return d.commit(s, nil, splice{head, up.head(s.at + 1), ""})
	case to < len(d.text):
		to += breakAt(d.text, to)
	}
	if is, err := d.commit(s, nil, splice{from, to, ""}); err == nil {
		return is, nil
	}
	return d.commit(s, nil, splice{from, d.remarksEnd(to, d.column(head)), ""})
}

// remarksEnd is where the comments that begin at a line and stand further in than a column end. Under an entry they belong to
// it; left behind they would be lines of the text behind a bar that may stand above.
func (d *doc) remarksEnd(at, column int) int {
	end := at
	for at < len(d.text) {
		text := at + len(d.text[at:]) - len(strings.TrimLeft(d.text[at:], " "))
		stop := lineEnd(d.text, text)
		next := stop
		if stop < len(d.text) {
			next += breakAt(d.text, stop)
		}
		if stop > text {
			if d.text[text] != '#' || text-at <= column {
				return end
			}
			end = next
		}
		at = next
	}
	return end
}

// outOfFlow takes an entry and one comma out of brackets, and leaves the comments of other entries.
func (d *doc) outOfFlow(up *node, i int) []splice {
	own, end := up.head(i), up.kids[i].end
	comma := skipAll(d.text, end)
	if i == len(up.kids)-1 {
		return d.lastOutOfFlow(up, i, comma)
	}
	next := up.head(i + 1)
	line, _ := d.breaks.position(d.text, own)
	first := strings.Trim(d.text[d.breaks.starts[line-1]:own], " \t") == ""
	switch {
	case first || lineEnd(d.text, end) >= next:
		return []splice{{own, next, ""}}
	case i > 0:
		return []splice{{skipAll(d.text, up.kids[i-1].end), comma, ""}}
	}
	return []splice{{own, comma + 1, ""}}
}

func (d *doc) lastOutOfFlow(up *node, i, comma int) []splice {
	own, end := up.head(i), up.kids[i].end
	if i == 0 {
		if d.text[comma] == ',' {
			end = comma + 1
		}
		return []splice{{own, end, ""}}
	}
	before := up.kids[i-1].end
	if at := skipAll(d.text, before); strings.Contains(d.text[before:own], "#") {
		return []splice{{at, at + 1, ""}, {own, end, ""}}
	}
	return []splice{{before, end, ""}}
}
