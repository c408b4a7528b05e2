package interview

import (
	"fmt"
	"maps"
	"strings"

	"hushwake/path/boatfile/edit"
	"hushwake/path/boatfile/spelling"
)

// draft is a text while an answer is written into it; after the first error nothing more is done.
type draft struct {
	text       []byte
	err        error
	goal, boat string // "" = as before
	lists      map[string][][]string
}

func (d *draft) do(change func([]byte) ([]byte, error)) {
	if d.err == nil {
		d.text, d.err = change(d.text)
	}
}

func (d *draft) set(at, to string) {
	d.do(func(t []byte) ([]byte, error) { return edit.Set(t, at, to) })
}

func (d *draft) unknown(at string) {
	d.do(func(t []byte) ([]byte, error) { return edit.Unknown(t, at) })
}

func (d *draft) add(at, item string) {
	d.do(func(t []byte) ([]byte, error) { return edit.Add(t, at, item) })
}

// drop takes out what stands at a place, if anything does.
func (d *draft) drop(at string) {
	if _, ok := edit.Get(d.text, at); ok {
		d.do(func(t []byte) ([]byte, error) { return edit.Remove(t, at) })
	}
}

func (d *draft) fail(format string, args ...any) {
	if d.err == nil {
		d.err = fmt.Errorf(format, args...)
	}
}

// filled puts answers into the value that is written; each becomes one YAML scalar that fits into a list or mapping.
func filled(write string, answers ...string) string {
	if write == "" {
		write = "%s"
	}
	args := make([]any, len(answers))
	for i, a := range answers {
		args[i] = scalar(a)
	}
	return fmt.Sprintf(write, args...)
}

// scalar is a text as one YAML value that may stand in a list in one line too.
func scalar(s string) string {
	if q := edit.Quote(s); q != s || !strings.ContainsAny(s, ",[]{}") {
		return q
	}
	return "'" + strings.ReplaceAll(s, "'", "''") + "'"
}

// triple is a place or a size of three figures.
func triple(d *draft, all []string) string {
	if len(all) == 1 {
		all = strings.Split(strings.Trim(all[0], "[]"), ", ")
	}
	if len(all) != 3 {
		d.fail("three figures are wanted, not %d\nhint: such as 5.0 m, 0 m, 1.2 m", len(all))
		return ""
	}
	for i, a := range all {
		if a = strings.TrimSpace(a); a == "" {
			d.fail("figure %d of three is missing\nhint: such as 1.2 m", i+1)
		}
		all[i] = a
	}
	return filled("[%s, %s, %s]", all...)
}

// field is the answer of a control; "" where it was left empty.
func field(all []string, i int) string {
	if i < len(all) {
		return all[i]
	}
	return ""
}

// chosen is the YAML of a choice in a field; "" where it was left empty.
func (d *draft) chosen(all []Choice, value string) string {
	if value == "" {
		return "unknown"
	}
	c, ok := find(all, value)
	if !ok {
		d.fail("%s", unlisted(spelling.Clip(value), all))
	}
	return c.yaml()
}

// list remembers the rows of a list.
func (d *draft) list(id string, rows [][]string) {
	d.lists = merged(d.lists, map[string][][]string{id: rows})
}

// merged are lists with some of them new.
func merged(was, is map[string][][]string) map[string][][]string {
	out := maps.Clone(was)
	if out == nil {
		out = map[string][][]string{}
	}
	maps.Copy(out, is)
	return out
}
