package parts

import (
	"hushwake/path/boatfile/lines"
	"hushwake/path/report/form"
)

// Known is one table of what a boat file may hold.
type Known struct{ table lines.HelpTable }

// NewKnown is the table of a topic; ok is false where there is none.
func NewKnown(topic string) (Known, bool) {
	t, ok := lines.Help(topic)
	return Known{t}, ok
}

// HelpTable is the document of a table.
type HelpTable struct {
	Topic string              `json:"topic"`
	Rows  []map[string]string `json:"rows"`
}

// Document is for scripts: each row by the names of its columns.
func (h Known) Document() any {
	d := HelpTable{Topic: h.table.Topic, Rows: []map[string]string{}}
	for _, r := range h.table.Rows {
		row := map[string]string{}
		for i, name := range h.table.Head {
			row[name] = r[i]
		}
		d.Rows = append(d.Rows, row)
	}
	return d
}

// Sheet is the table in cells.
func (h Known) Sheet() form.Sheet { return append(form.Sheet{h.table.Head}, h.table.Rows...) }

// Text is the table for a person.
func (h Known) Text(form.Units) *form.Text {
	t, out := &form.Text{}, &form.Table{Rows: h.table.Rows}
	for i, name := range h.table.Head {
		out.Column(name, h.table.Right[i])
	}
	t.Say("", "%s", h.table.Text)
	t.Blank()
	t.Table(out)
	return t
}
