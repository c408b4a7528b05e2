package main

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/term"

	"hushwake/path/report/form"
)

// Widths of what is printed for a person, in columns: that of the terminal between two bounds, else the usual one.
const (
	pageWidth  = 100
	narrowPage = 72
	widePage   = 120
	moreToRead = "…"
)

// page is where text goes: so wide, and with what the bars are drawn of.
type page struct {
	w      io.Writer
	width  int
	glyphs *strings.Replacer
}

// plainGlyphs stand for those that not every terminal has.
var plainGlyphs = strings.NewReplacer("─", "-", "●", "o", "·", ".", "┊", ":", moreToRead, "..")

// page is that of stdout.
func (s streams) page() page {
	p := page{s.out, s.columns, strings.NewReplacer()}
	if p.width == 0 {
		p.width = pageWidth
	}
	if s.plain {
		p.glyphs = plainGlyphs
	}
	return p
}

// columns is the width of a page on a terminal: the one in COLUMNS if it is stated, else its own; 0 without either.
func columns(out *os.File, stated string) int {
	n, err := strconv.Atoi(stated)
	if err != nil || n <= 0 {
		if n, _, err = term.GetSize(int(out.Fd())); err != nil {
			return 0
		}
	}
	return min(max(n, narrowPage), widePage)
}

// plain tells that the locale promises no more than plain letters.
func plain(locale ...string) bool {
	i := slices.IndexFunc(locale, func(s string) bool { return s != "" })
	return i < 0 || !strings.Contains(strings.ReplaceAll(strings.ToLower(locale[i]), "-", ""), "utf8")
}

// text writes what a person reads, wrapped to the page.
func (p page) text(t *form.Text) {
	for _, b := range t.Blocks {
		first, words := p.show(b.First), p.show(b.Words)
		switch {
		case b.Table != nil:
			p.table(b.Table)
		case b.Line:
			p.lines(words)
		case b.Command != nil:
			p.command(first, b.Command)
		case b.Most > 0:
			p.paragraph(first, brief(words, p.show(b.Whole), p.width-utf8.RuneCountInString(first), b.Most, p.show(moreToRead)))
		default:
			p.paragraph(first, words)
		}
	}
}

// lines prints lines as they stand, but for those that are wider than the page.
func (p page) lines(text string) {
	for _, l := range strings.Split(text, "\n") {
		if utf8.RuneCountInString(l) <= p.width {
			fmt.Fprintln(p.w, l)
			continue
		}
		bare := strings.TrimLeft(l, " ")
		p.paragraph(l[:len(l)-len(bare)], bare)
	}
}

// show is a text with all that hides in it, of signs that this page has.
func (p page) show(s string) string { return p.glyphs.Replace(form.Visible(s)) }

// command prints a command; a shell reads on behind the sign at the end of a line that is full.
func (p page) command(first string, args []string) {
	line := first + args[0]
	for i := 1; i < len(args); i++ {
		a, room := args[i], p.width
		if strings.HasPrefix(a, "--") && i+1 < len(args) { // a flag stays with its value
			i++
			a += " " + args[i]
		}
		if i < len(args)-1 {
			room -= len(" \\")
		}
		if utf8.RuneCountInString(line)+1+utf8.RuneCountInString(a) > room {
			fmt.Fprintln(p.w, line+" \\")
			line = "   "
		}
		line += " " + a
	}
	fmt.Fprintln(p.w, line)
}

// brief cuts a text to so many lines: at the end of a sentence if half of it is left so, else between words. What it
// begins with whole is kept and takes more lines if it must; behind it only whole sentences are.
func brief(text, whole string, width, most int, mark string) string {
	lines := wrap(text, width)
	if whole != "" {
		most = max(most, len(wrap(whole+" "+mark, width)))
	}
	if len(lines) <= most {
		return text
	}
	kept := strings.Join(lines[:most], " ")
	if end := strings.LastIndex(kept+" ", ". "); end > len(kept)/2 || whole != "" {
		kept = kept[:end+1]
	}
	for len(wrap(kept+" "+mark, width)) > most {
		kept = kept[:max(0, strings.LastIndex(kept, " "))]
	}
	return kept + " " + mark
}

// table writes a table, each column as wide as it needs and the widest ones wrapped; nothing if it has no rows.
func (p page) table(t *form.Table) {
	if len(t.Rows) == 0 {
		return
	}
	head := form.Each(t.Columns, func(c form.Column) string { return p.show(c.Name) })
	shown := form.Each(t.Rows, func(r []string) []string { return form.Each(r, p.show) })
	width, gap := widths(append([][]string{head}, shown...), p.width)
	printRow(p.w, t.Columns, head, width, gap)
	rule := form.Each(width, func(n int) string { return strings.Repeat("-", n) })
	fmt.Fprintln(p.w, strings.Join(rule, gap))
	for _, r := range shown {
		if len(r) == 1 && len(width) > 1 {
			p.paragraph("", brief(r[0], "", p.width, 1, p.show(moreToRead)))
			continue
		}
		printRow(p.w, t.Columns, r, width, gap)
	}
}

// widths takes columns of rows from the widest down until the table fits: words are only cut where nothing
// else helps, and then columns stand closer too.
func widths(rows [][]string, page int) (width []int, gap string) {
	width = make([]int, len(rows[0]))
	word := make([]int, len(rows[0]))
	for _, r := range rows {
		if len(r) == 1 && len(width) > 1 {
			continue // across all columns
		}
		for i, c := range r {
			for _, l := range strings.Split(c, "\n") {
				width[i] = max(width[i], utf8.RuneCountInString(l))
			}
			for _, f := range strings.Fields(c) {
				word[i] = max(word[i], utf8.RuneCountInString(f))
			}
		}
	}
	gap = "  "
	if total(word, gap) > page {
		gap = " "
	}
	for _, least := range [][]int{word, make([]int, len(word))} {
		for total(width, gap) > page {
			i := widest(width, least)
			if i < 0 {
				break
			}
			width[i]--
		}
	}
	return width, gap
}

// narrowest is what a column is never cut below.
const narrowest = 6

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

func total(width []int, gap string) int {
	n := len(gap) * (len(width) - 1)
	for _, w := range width {
		n += w
	}
	return n
}

// printRow prints one row over as many lines as its tallest cell needs.
func printRow(w io.Writer, columns []form.Column, cells []string, width []int, gap string) {
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
		fmt.Fprintln(w, strings.TrimRight(strings.Join(parts, gap), " "))
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
func (p page) paragraph(first, text string) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(first))
	for i, l := range wrap(text, p.width-len(indent)) {
		if i > 0 {
			first = indent
		}
		fmt.Fprintln(p.w, strings.TrimRight(first+l, " "))
	}
}
