package edit

import (
	"io"
	"sort"
	"strings"
	"unicode/utf8"
)

var (
	bom    = []byte("\ufeff")
	errEnd = io.EOF
)

// breakAt is the length of the line break that stands at a byte, 0 where none does: those of YAML 1.1, section 4.2.
func breakAt(s string, i int) int {
	switch s[i] {
	case '\n':
		return 1
	case '\r':
		if i+1 < len(s) && s[i+1] == '\n' {
			return 2
		}
		return 1
	case 0xc2:
		if strings.HasPrefix(s[i:], "\u0085") {
			return 2
		}
	case 0xe2:
		if strings.HasPrefix(s[i:], "\u2028") || strings.HasPrefix(s[i:], "\u2029") {
			return 3
		}
	}
	return 0
}

// lineEnd is where the line of a byte ends, before its break.
func lineEnd(s string, i int) int {
	for i < len(s) && breakAt(s, i) == 0 {
		i++
	}
	return i
}

// lineTable holds where lines begin.
type lineTable struct {
	starts []int
	ascii  []bool
}

func newLineTable(s string) lineTable {
	first := 0
	if strings.HasPrefix(s, string(bom)) {
		first = len(bom)
	}
	t := lineTable{starts: []int{first}, ascii: []bool{true}}
	for i := first; i < len(s); {
		if n := breakAt(s, i); n > 0 {
			i += n
			t.starts, t.ascii = append(t.starts, i), append(t.ascii, true)
			continue
		}
		if s[i] >= utf8.RuneSelf {
			t.ascii[len(t.ascii)-1] = false
		}
		i++
	}
	return t
}

// offset is the byte at a line and column from 1; columns behind the end of a line are its end.
func (t lineTable) offset(s string, line, column int) int {
	if line < 1 {
		return t.starts[0]
	}
	if line > len(t.starts) {
		return len(s)
	}
	i := t.starts[line-1]
	if t.ascii[line-1] {
		end := len(s)
		if line < len(t.starts) {
			end = t.starts[line]
		}
		return min(i+max(column, 1)-1, end)
	}
	for c := 1; c < column && i < len(s) && breakAt(s, i) == 0; c++ {
		_, size := utf8.DecodeRuneInString(s[i:])
		i += size
	}
	return i
}

// position is the line and column of a byte, from 1.
func (t lineTable) position(s string, at int) (line, column int) {
	line = max(sort.SearchInts(t.starts, at+1), 1)
	return line, utf8.RuneCountInString(s[min(t.starts[line-1], at):at]) + 1
}

// skipAll is the next byte that is no blank, line break or comment.
func skipAll(s string, i int) int {
	for i < len(s) {
		switch n := breakAt(s, i); {
		case n > 0:
			i += n
		case s[i] == ' ' || s[i] == '\t':
			i++
		case s[i] == '#' && (i == 0 || !closeTo(s, i-1)):
			i = lineEnd(s, i)
		default:
			return i
		}
	}
	return i
}

// closeTo says that a byte is neither blank nor the end of a line, nor what may stand right before a comment.
func closeTo(s string, i int) bool {
	return s[i] != ' ' && s[i] != '\t' && s[i] != '\n' && s[i] != '\r' && s[i] < utf8.RuneSelf && !strings.ContainsRune(",[]{}", rune(s[i]))
}

// properties is where anchor and tag end.
func properties(s string, i int) int {
	for end := i; ; {
		if i >= len(s) || s[i] != '&' && s[i] != '!' {
			return end
		}
		verbatim := strings.HasPrefix(s[i:], "!<")
		for i < len(s) && s[i] != ' ' && s[i] != '\t' && breakAt(s, i) == 0 && (verbatim || !strings.ContainsRune(",[]{}", rune(s[i]))) {
			i++
		}
		end, i = i, skipAll(s, i)
	}
}

// scalarEnd is where a scalar with a text ends; before its start where the text isn't there.
func scalarEnd(s string, n *node, indent int) int {
	i := n.content
	switch {
	case i >= len(s):
	case n.block && (s[i] == '|' || s[i] == '>'):
		return blockEnd(s, i, indent)
	case n.quoted && (s[i] == '"' || s[i] == '\''):
		return quoteEnd(s, i)
	case !n.quoted && !n.block:
		return plainEnd(s, i, n.value)
	}
	return -1
}

func quoteEnd(s string, i int) int {
	q := s[i]
	for i++; i < len(s); i++ {
		switch {
		case q == '"' && s[i] == '\\':
			i++
		case s[i] == q && q == '\'' && i+1 < len(s) && s[i+1] == q:
			i++
		case s[i] == q:
			return i + 1
		}
	}
	return -1
}

// plainEnd follows a text without quotes, over several lines where it is folded.
func plainEnd(s string, i int, value string) int {
	if strings.HasPrefix(s[i:], value) {
		return i + len(value)
	}
	for j := 0; j < len(value); {
		switch {
		case i >= len(s):
			return -1
		case space(value, j) > 0 && space(s, i) > 0:
			i, j = i+space(s, i), j+space(value, j)
		case s[i] != value[j]:
			return -1
		default:
			i, j = i+1, j+1
		}
	}
	return i
}

// space is the length of the blanks and line breaks at a byte.
func space(s string, i int) int {
	from := i
	for i < len(s) {
		if n := breakAt(s, i); n > 0 {
			i += n
		} else if s[i] == ' ' || s[i] == '\t' {
			i++
		} else {
			break
		}
	}
	return i - from
}

// blockEnd is where the last line of a text behind | or > ends.
func blockEnd(s string, i, indent int) int {
	head := lineEnd(s, i)
	end, inner := head, -1
	for _, c := range strings.SplitN(s[i:head], "#", 2)[0] {
		if c >= '1' && c <= '9' {
			inner = max(indent, 0) + int(c-'0')
		}
	}
	for at := head; at < len(s); {
		at += breakAt(s, at)
		stop := lineEnd(s, at)
		deep := len(s[at:stop]) - len(strings.TrimLeft(s[at:stop], " "))
		if at+deep < stop {
			if inner < 0 {
				inner = deep
			}
			if deep < inner || deep <= indent {
				break
			}
			end = stop
		}
		at = stop
	}
	return end
}
