package interview

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// An answer of a list is a row for each part: "= kind", then a line for each of its fields, empty where it isn't known. A last
// line of "+ kind" adds a part at the end, "- 2" takes the second out, "^ 2" moves it before the one above, and the question
// stays; "done" or nothing ends it.

// Rows are the parts of a list as it stands: kind, then its fields.
func (v *Interview) Rows(id string) [][]string {
	if rows, ok := v.lists[id]; ok {
		return rows
	}
	if id == "line" {
		return v.usualLine(v.goal == "box")
	}
	return nil
}

// Typed are the rows of a list as they were written last, whether they would do or not, each with a text for all its fields.
func (v *Interview) Typed(q *Question) (rows [][]string) {
	for _, line := range v.Tried(q.ID) {
		line = strings.TrimSpace(line)
		if kind, isRow := strings.CutPrefix(line, "= "); isRow {
			rows = append(rows, []string{kind})
		} else if n := len(rows); n > 0 {
			rows[n-1] = append(rows[n-1], line)
		}
	}
	if len(rows) == 0 {
		return v.Rows(q.ID)
	}
	for i, row := range rows {
		if p := (&draft{}).part(q, row[0]); len(row) <= len(p.Fields) {
			rows[i] = append(row, make([]string, len(p.Fields)+1-len(row))...)
		}
	}
	return rows
}

// written is the answer that rows are.
func written(rows [][]string) string {
	var all []string
	for _, row := range rows {
		all = append(append(all, "= "+row[0]), row[1:]...)
	}
	return strings.Join(append(all, finished), "\n")
}

// writeParts makes the edits of a list; stay tells that more is to be added.
func (v *Interview) writeParts(d *draft, q *Question, all []string) (stay bool) {
	rows, act := v.read(d, q, all)
	verb, of, _ := strings.Cut(act, " ")
	switch n, _ := strconv.Atoi(of); {
	case act == "" || act == finished:
	case verb == "+":
		rows = append(rows, d.fresh(q, of, rows))
	case (verb == "-" || verb == "^") && (n < 1 || n > len(rows)):
		d.fail("there is no part %s\nhint: 1 to %d", of, len(rows))
	case verb == "-":
		rows = slices.Delete(rows, n-1, n)
	case n > 1:
		rows[n-2], rows[n-1] = rows[n-1], rows[n-2]
	}
	if d.err == nil {
		q.fill(d, v, rows)
		d.list(q.ID, rows)
	}
	return act != "" && act != finished
}

// read takes an answer apart; an answer without rows is about those that stand.
func (v *Interview) read(d *draft, q *Question, all []string) (rows [][]string, act string) {
	for _, line := range all {
		kind, isRow := strings.CutPrefix(line, "= ")
		switch {
		case isRow:
			part := d.part(q, kind)
			rows = append(rows, append([]string{kind}, make([]string, 0, len(part.Fields))...))
		case line == finished || strings.HasPrefix(line, "+ ") || strings.HasPrefix(line, "^ ") || isTake(line):
			act = line
		case len(rows) == 0:
			d.fail("%q belongs to no part\nhint: a part begins with its kind, such as \"= %s\"", line, q.Parts[0].Kind)
		default:
			rows[len(rows)-1] = append(rows[len(rows)-1], line)
		}
	}
	if len(rows) == 0 {
		rows = clone(v.Rows(q.ID))
	}
	for i := range rows {
		rows[i] = d.full(q, rows[i])
	}
	return rows, act
}

// isTake tells "- 2" from a figure under zero.
func isTake(line string) bool {
	_, err := strconv.Atoi(strings.TrimPrefix(line, "- "))
	return strings.HasPrefix(line, "- ") && err == nil
}

// full is a row with a text for each of its fields.
func (d *draft) full(q *Question, row []string) []string {
	want := len(d.part(q, row[0]).Fields) + 1
	if len(row) > want {
		d.fail("%q is one figure too many of a %s\nhint: it has %d", row[want], row[0], want-1)
		return row
	}
	for len(row) < want {
		row = append(row, "")
	}
	return row
}

func (d *draft) part(q *Question, kind string) (none Part) {
	var kinds []Choice
	for _, p := range q.Parts {
		if p.Kind == kind {
			return p
		}
		kinds = append(kinds, Choice{Value: p.Kind})
	}
	d.fail("%s", unlisted(kind, kinds))
	return none
}

// Addable are the parts that may be put into rows of a list: all but those of which there is one and no second may be.
func (q *Question) Addable(rows [][]string) []Part {
	return slices.DeleteFunc(slices.Clone(q.Parts), func(p Part) bool { return p.twice != "" && hasKind(rows, p.Kind) })
}

// fresh is a new row; a tube has the bore of the one before it.
func (d *draft) fresh(q *Question, kind string, rows [][]string) []string {
	part := d.part(q, kind)
	row := d.full(q, append([]string{kind}, part.usual...))
	for _, r := range rows {
		if part.tube && partOf(q.Parts, r[0]).tube {
			row[1] = r[1]
		}
	}
	return row
}

// stated is a row with what is usual where the file has to state a figure that was left empty.
func stated(parts []Part, row []string) []string {
	row = slices.Clone(row)
	p := partOf(parts, row[0])
	for f := range p.needs {
		row[f+1] = cmp.Or(row[f+1], p.usual[f])
	}
	return row
}

func clone(rows [][]string) (out [][]string) {
	for _, row := range rows {
		out = append(out, slices.Clone(row))
	}
	return out
}
