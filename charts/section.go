package charts

import (
	"html/template"

	"hushwake/charts/gloss"
	"hushwake/charts/plot"
)

// section is one heading of the page and what stands under it.
type section struct {
	ID, Title string
	Sheet     int // of paper, 1 to 3, on which it is printed without being asked; 0 = none
	matter
	Folds  []fold
	Terms  []gloss.Term
	Player template.HTML // empty = no sound
}

// fold is opened by whom it concerns; on paper only where everything is printed.
type fold struct {
	Label string
	matter
}

// matter is what stands under a heading or behind a fold, in the order that it stands there.
type matter struct {
	Lead    []string // paragraphs
	Empty   string   // said in place of charts that there is no data for
	Views   []view   // pictures
	Figures []figure
	Tables  []table
	Lists   []list
}

// view is a picture.
type view struct {
	Group, Of string // of the switch, and what it chooses; "" = all are shown, one under the other
	ID, Label string
	On        bool
	Picture   template.HTML
}

// figure is a chart, or a sentence saying why there is none, with its data in a table.
type figure struct {
	ID, Title, Alt string
	Note           string
	Wide           bool // takes the whole width
	Height         int  // pixels
	Key            []plot.Mark
	Plot           *plot.Plot
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
	Cards   bool // a card for each row where the page is narrow
	Few     bool // whose figures stand side by side in it
}

// withoutEmptyColumns leaves out the columns of words in which nothing is said.
func withoutEmptyColumns(t table) table {
	out := t
	out.Head, out.Rows = nil, make([][]cell, len(t.Rows))
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

// cell is one entry: text, whether it is a number, an optional class for its tint, and a picture before the text.
type cell struct {
	Text    string
	Num     bool
	Class   string
	Picture template.HTML
}

func words(s string) cell {
	if s == "" {
		s = "–"
	}
	return cell{Text: s}
}

func num(s string) cell { return cell{Text: s, Num: true} }

// list is a list of entries; its title may be empty.
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
