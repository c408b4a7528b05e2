package form

import (
	"fmt"
	"strconv"
	"strings"

	"hushwake/source/spectrum"
)

// Text is what a person reads: lines, paragraphs and tables in their order.
type Text struct{ Blocks []Block }

// Block is a table, or a paragraph that hangs behind First, or a line that is printed as it stands.
type Block struct {
	First, Words string
	Line         bool     // Words as they stand
	Most         int      // lines that a paragraph may take; 0 = as many as it needs
	Whole        string   // the beginning of Words that is never cut, whatever Most is
	Command      []string // of a shell, by argument
	Table        *Table
}

// Say adds a paragraph.
func (t *Text) Say(first, format string, args ...any) {
	t.Blocks = append(t.Blocks, Block{First: first, Words: fmt.Sprintf(format, args...)})
}

// Brief adds a paragraph of at most so many lines: what doesn't fit is cut, at the end of a sentence where one is near.
func (t *Text) Brief(most int, first, format string, args ...any) {
	t.Blocks = append(t.Blocks, Block{First: first, Words: fmt.Sprintf(format, args...), Most: most})
}

// Command adds a command that can be pasted into a shell.
func (t *Text) Command(first string, args ...string) {
	t.Blocks = append(t.Blocks, Block{First: first, Command: Each(args, Shell)})
}

// Line adds a line, or several, as they stand.
func (t *Text) Line(format string, args ...any) {
	t.Blocks = append(t.Blocks, Block{Words: fmt.Sprintf(format, args...), Line: true})
}

// Blank adds an empty line.
func (t *Text) Blank() { t.Line("") }

// Table adds a table; one without rows prints nothing.
func (t *Text) Table(tb *Table) { t.Blocks = append(t.Blocks, Block{Table: tb}) }

// Table is text in columns.
type Table struct {
	Columns []Column
	Rows    [][]string
}

// Column is the head of a column and on which side it is flush.
type Column struct {
	Name  string
	Right bool
}

// NewTable makes a table; a > before the name of a column sets it flush right.
func NewTable(names ...string) *Table {
	t := &Table{}
	for _, n := range names {
		name, right := strings.CutPrefix(n, ">")
		t.Column(name, right)
	}
	return t
}

// Column adds a column.
func (t *Table) Column(name string, right bool) { t.Columns = append(t.Columns, Column{name, right}) }

// Add adds a row; one of a single cell goes across all columns.
func (t *Table) Add(cells ...string) { t.Rows = append(t.Rows, cells) }

// BandTable is a table with a column for each octave band.
func BandTable(head string) *Table {
	t := NewTable(head)
	for _, f := range spectrum.Nominal {
		name := fmt.Sprintf("%g", f)
		if f >= 1000 {
			name = fmt.Sprintf("%gk", f/1000)
		}
		t.Column(name, true)
	}
	return t
}

// BandCells are a name and nine values, a dash where silent.
func BandCells(name string, b spectrum.Bands, decimals int) []string {
	row := []string{name}
	for _, v := range b {
		if v <= spectrum.Silent/2 {
			row = append(row, "-")
			continue
		}
		text := strconv.FormatFloat(v, 'f', decimals, 64)
		if strings.Trim(text, "-0.") == "" {
			text = strings.TrimPrefix(text, "-")
		}
		row = append(row, text)
	}
	return row
}
