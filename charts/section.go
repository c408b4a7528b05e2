package charts

import "html/template"

// section is one heading of the page and what stands under it.
type section struct {
	ID, Title string
	Lead      []string // paragraphs
	Key       []mark
	Figures   []figure
	More      []figure // behind a fold on the screen, open in print
	MoreLabel string
	Tables    []table
	Lists     []list
	ListsLead bool   // the lists stand before figures and tables
	Empty     string // said in place of charts that there is no data for
}

// figure is a chart, or a sentence saying why there is none, with its data in a table.
type figure struct {
	ID, Title, Alt string
	Note           string
	Wide           bool // takes the whole width
	Height         int  // pixels
	Key            []mark
	Plot           *plot
	JSON           template.JS
	Table          table
	Empty          string
}

// table has one header row; the first cell of each row is its header.
type table struct {
	Caption string
	Head    []string
	Rows    [][]cell
	Notes   []string
}

// Folded tables stand behind a fold; Long ones are not opened for print.
func (t table) Folded() bool { return len(t.Rows) > 14 }
func (t table) Long() bool   { return len(t.Rows) > 120 }

// told leaves out the columns of words in which nothing is said.
func told(t table) table {
	out := table{Caption: t.Caption, Notes: t.Notes, Rows: make([][]cell, len(t.Rows))}
	for k, head := range t.Head {
		said := k == 0
		for _, row := range t.Rows {
			said = said || row[k].Num || row[k].Text != "–"
		}
		if !said {
			continue
		}
		out.Head = append(out.Head, head)
		for n, row := range t.Rows {
			out.Rows[n] = append(out.Rows[n], row[k])
		}
	}
	return out
}

// cell is one entry: text, whether it is a number, and an optional class for its tint.
type cell struct {
	Text  string
	Num   bool
	Class string
	Mark  *mark // the layout's mark, before the text
}

func words(s string) cell {
	if s == "" {
		s = "–"
	}
	return cell{Text: s}
}

func num(s string) cell { return cell{Text: s, Num: true} }

// list is a titled list of entries.
type list struct {
	Title string
	Items []item
}

// item is a sentence with an optional kind in front and remarks behind.
type item struct {
	Kind   string // a word shown as a label: danger, warning, note
	Text   string
	Detail []string
}
