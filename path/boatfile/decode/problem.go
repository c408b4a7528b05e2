package decode

import (
	"bytes"
	"fmt"
	"sort"
	"strings"
	"unicode/utf8"
)

// Problem is one thing that is wrong in a file, with its place.
type Problem struct {
	File         string
	Line, Column int // 1-based; 0 when the whole file is meant
	Message      string
	Hint         string // what to write instead; "" when nothing is near
	SourceLine   string // the line as it stands in the file
}

// Errors is everything wrong with a file, sorted by line.
type Errors struct{ Problems []Problem }

// Error prints each problem as file:line:column: message, the line, a caret, and a hint.
func (e *Errors) Error() string {
	var b strings.Builder
	for i, p := range e.Problems {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(p.String())
	}
	return b.String()
}

// maxSource is how much of a long source line is shown.
const maxSource = 160

// String prints one problem over one to four lines.
func (p Problem) String() string {
	var b strings.Builder
	if p.Line > 0 {
		fmt.Fprintf(&b, "%s:%d:%d: %s", p.File, p.Line, p.Column, p.Message)
	} else {
		fmt.Fprintf(&b, "%s: %s", p.File, p.Message)
	}
	if p.Line > 0 && strings.TrimSpace(p.SourceLine) != "" {
		line, caret := excerpt(p.SourceLine, p.Column)
		fmt.Fprintf(&b, "\n    %s\n    %s^", line, caret)
	}
	if p.Hint != "" {
		fmt.Fprintf(&b, "\nhint: %s", p.Hint)
	}
	return b.String()
}

// excerpt cuts a long line round the column and gives the blanks that stand before the caret.
func excerpt(line string, column int) (string, string) {
	r := []rune(strings.TrimRight(line, "\r\n"))
	at := min(max(column-1, 0), len(r))
	from := max(0, at-maxSource*3/4)
	to := min(len(r), from+maxSource)
	shown := make([]rune, 0, to-from)
	blanks := make([]rune, 0, at-from)
	for i := from; i < to; i++ {
		c := r[i]
		if c != '\t' && (c < ' ' || c == 0x7f || c == utf8.RuneError) {
			c = '?'
		}
		shown = append(shown, c)
		if i < at {
			blank := ' '
			if c == '\t' {
				blank = '\t'
			}
			blanks = append(blanks, blank)
		}
	}
	return string(shown), string(blanks)
}

// sortProblems orders by line and column and drops repeats.
func sortProblems(ps []Problem) []Problem {
	sort.SliceStable(ps, func(i, j int) bool {
		if ps[i].Line != ps[j].Line {
			return ps[i].Line < ps[j].Line
		}
		return ps[i].Column < ps[j].Column
	})
	seen := map[string]bool{}
	out := ps[:0]
	for _, p := range ps {
		key := fmt.Sprintf("%d:%d:%s", p.Line, p.Column, p.Message)
		if !seen[key] {
			seen[key] = true
			out = append(out, p)
		}
	}
	return out
}

// Placed sorts problems and adds the file's name and the source lines.
func Placed(name string, data []byte, ps []Problem) *Errors {
	lines := strings.Split(string(bytes.TrimPrefix(data[:min(len(data), MaxBytes)], []byte("\ufeff"))), "\n")
	ps = sortProblems(ps)
	for i := range ps {
		ps[i].File = name
		if n := ps[i].Line; n >= 1 && n <= len(lines) {
			ps[i].SourceLine = strings.TrimRight(lines[n-1], "\r")
		}
	}
	return &Errors{Problems: ps}
}
