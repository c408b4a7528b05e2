package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"hushwake/path/report/form"
)

// pageWidth is the widest that anything printed for a person gets, in columns.
const pageWidth = 100

// printText writes what a person reads, wrapped to the page.
func printText(w io.Writer, t *form.Text) {
	for _, b := range t.Blocks {
		switch {
		case b.Table != nil:
			printTable(w, b.Table)
		case b.Line:
			fmt.Fprintln(w, b.Words)
		default:
			paragraph(w, b.First, b.Words)
		}
	}
}

// printTable writes a table, each column as wide as it needs and the widest ones wrapped; nothing if it has no rows.
func printTable(w io.Writer, t *form.Table) {
	if len(t.Rows) == 0 {
		return
	}
	head := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		head[i] = c.Name
	}
	width := widths(append([][]string{head}, t.Rows...))
	printRow(w, t.Columns, head, width)
	rule := make([]string, len(width))
	for i, n := range width {
		rule[i] = strings.Repeat("-", n)
	}
	fmt.Fprintln(w, strings.Join(rule, "  "))
	for _, r := range t.Rows {
		printRow(w, t.Columns, r, width)
	}
}

// widths takes columns of rows from the widest down until the table fits: words are only cut where nothing
// else helps.
func widths(rows [][]string) []int {
	width, word := make([]int, len(rows[0])), make([]int, len(rows[0]))
	for _, r := range rows {
		for i, c := range r {
			for _, l := range strings.Split(c, "\n") {
				width[i] = max(width[i], utf8.RuneCountInString(l))
			}
			for _, f := range strings.Fields(c) {
				word[i] = max(word[i], utf8.RuneCountInString(f))
			}
		}
	}
	for _, least := range [][]int{word, make([]int, len(word))} {
		for total(width) > pageWidth {
			i := widest(width, least)
			if i < 0 {
				break
			}
			width[i]--
		}
	}
	return width
}

// narrowest is what a column is never cut below.
const narrowest = 8

// widest is the widest column that may still give; -1 if none.
func widest(width, least []int) int {
	best := -1
	for i, n := range width {
		if n > max(least[i], narrowest) && (best < 0 || n > width[best]) {
			best = i
		}
	}
	return best
}

func total(width []int) int {
	n := 2 * (len(width) - 1)
	for _, w := range width {
		n += w
	}
	return n
}

// printRow prints one row over as many lines as its tallest cell needs.
func printRow(w io.Writer, columns []form.Column, cells []string, width []int) {
	wrapped := make([][]string, len(width))
	tall := 0
	for i := range width {
		if i < len(cells) {
			wrapped[i] = wrap(cells[i], width[i])
		}
		tall = max(tall, len(wrapped[i]))
	}
	for k := range tall {
		parts := make([]string, len(width))
		for i, n := range width {
			text := ""
			if k < len(wrapped[i]) {
				text = wrapped[i][k]
			}
			parts[i] = pad(text, n, columns[i].Right)
		}
		fmt.Fprintln(w, strings.TrimRight(strings.Join(parts, "  "), " "))
	}
}

func pad(s string, n int, right bool) string {
	blanks := strings.Repeat(" ", max(0, n-utf8.RuneCountInString(s)))
	if right {
		return blanks + s
	}
	return s + blanks
}

// wrap breaks a text into lines of at most n columns, at blanks where it can.
func wrap(text string, n int) []string {
	var lines []string
	for _, part := range strings.Split(text, "\n") {
		lines = append(lines, wrapLine(part, n)...)
	}
	return lines
}

func wrapLine(text string, n int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		for utf8.RuneCountInString(word) > n {
			if line != "" {
				lines, line = append(lines, line), ""
			}
			r := []rune(word)
			lines, word = append(lines, string(r[:n])), string(r[n:])
		}
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= n:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	return append(lines, line)
}

// paragraph prints text wrapped to the page with a hanging indent.
func paragraph(w io.Writer, first, text string) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(first))
	for i, l := range wrap(text, pageWidth-len(indent)) {
		if i == 0 {
			fmt.Fprintln(w, first+l)
			continue
		}
		fmt.Fprintln(w, indent+l)
	}
}
