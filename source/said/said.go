// Package said is how models put quantities into sentences: what is a quantity is marked where the sentence is made, with the
// value of each figure in full, so that whoever prints it may tell that quantity, and nothing else of the sentence, in other
// units, from its value and rounded once. Names are never read.
package said

import (
	"fmt"
	"strconv"
	"strings"
)

// The marks are noncharacters, which Unicode keeps for use inside a program (The Unicode Standard, section 23.7): no
// font shows them, and a text that comes from outside must not hold them (Foreign). A quantity stands between begin and end,
// each of its figures between figure and past: as it is shown, then in full.
const (
	begin  = "\ufdd0"
	end    = "\ufdd1"
	figure = "\ufdd2"
	exact  = "\ufdd3"
	past   = "\ufdd4"
	lead   = "\xef\xb7" // of every mark
)

// Figure is the pattern of one figure of a quantity, for expressions.
const Figure = figure + "[^" + past + "]*" + past

var marks = strings.NewReplacer(begin, "", end, "", figure, "", exact, "", past, "")

// Textf is a sentence in which what stands in braces in the format, and there alone, is a quantity: "{%.1f of %.1f kPa}"
// is figures and one unit behind a blank; arguments there are float64. What an argument holds stays as it is.
func Textf(format string, args ...any) string {
	if false {
		_ = fmt.Sprintf(format, args...) // lets go vet check the verbs
	}
	return fmt.Sprintf(Marked(format), args...)
}

// Marked is a sentence of our own, such as the cell of a table or a format, with its quantities in braces.
func Marked(template string) string {
	var out strings.Builder
	args, inside := 0, false
	for at := 0; at < len(template); {
		next, value := at+1, ""
		switch c := template[at]; c {
		case '{', '}':
			inside = c == '{'
		case '%':
			if next = verbEnd(template, at); template[next-1] != '%' {
				args++
				value = "%[" + strconv.Itoa(args) + "]g"
			}
		default:
			if last := numberEnd(template, at); last > at {
				next, value = last, template[at:last]
			}
		}
		out.WriteString(mark(template[at:next], value, inside))
		at = next
	}
	return out.String()
}

// mark is a piece of a template: a brace, a figure of a quantity with its value, or what stays.
func mark(piece, value string, inside bool) string {
	switch {
	case piece == "{":
		return begin
	case piece == "}":
		return end
	case inside && value != "":
		return figure + piece + exact + value + past
	}
	return piece
}

// verbEnd is the end of the verb that begins at a place of a format.
func verbEnd(format string, at int) int {
	for at++; at < len(format) && strings.IndexByte("+-# .0123456789", format[at]) >= 0; {
		at++
	}
	return min(at+1, len(format))
}

// numberEnd is the end of the number that begins at a place of a template, with the minus behind a blank; that place itself where
// none does, as in m3.
func numberEnd(text string, at int) int {
	before := byte(' ')
	if at > 0 {
		before = text[at-1]
	}
	end := at
	if text[at] == '-' && (before == ' ' || before == '{') {
		end++
	}
	digits := end
	for end < len(text) && (text[end] >= '0' && text[end] <= '9' || text[end] == '.' && end > digits) {
		end++
	}
	end = len(strings.TrimRight(text[:end], "."))
	if end <= digits || isWord(before) || end < len(text) && isWord(text[end]) {
		return at
	}
	return end
}

func isWord(c byte) bool {
	return c >= 0x80 || c == '_' || c|0x20 >= 'a' && c|0x20 <= 'z' || c >= '0' && c <= '9'
}

// Quantity is one quantity as a whole: its figure as it is shown, its value in the unit, the unit.
func Quantity(shown string, value float64, unit string) string {
	return begin + figure + shown + exact + strconv.FormatFloat(value, 'g', -1, 64) + past + " " + unit + end
}

// Plain is a text as it was said, in metric units, without marks.
func Plain(text string) string {
	if !strings.Contains(text, lead) {
		return text
	}
	var out strings.Builder
	for {
		before, rest, ok := strings.Cut(text, exact)
		out.WriteString(before)
		if !ok {
			return marks.Replace(out.String())
		}
		if value, after, closed := strings.Cut(rest, past); closed && !Foreign(value) {
			rest = after
		}
		text = rest
	}
}

// Foreign tells whether a text that comes from outside holds what only a program may write.
func Foreign(text string) bool {
	return strings.Contains(text, lead) && strings.ContainsAny(text, begin+end+figure+exact+past)
}

// Amount is a quantity of a sentence.
type Amount struct {
	Shown  string    // as it was said
	Words  []string  // before, between and behind its figures; the unit is the last, behind a blank
	Values []float64 // of its figures, in that unit
}

// Each is a text with each of its quantities told by a function.
func Each(text string, tell func(Amount) string) string {
	var out strings.Builder
	for {
		before, rest, ok := strings.Cut(text, begin)
		out.WriteString(Plain(before))
		if !ok {
			return out.String()
		}
		quantity, after, _ := strings.Cut(rest, end)
		out.WriteString(tell(read(quantity)))
		text = after
	}
}

// read takes what stands between the marks of a quantity apart.
func read(quantity string) Amount {
	q := Amount{Shown: Plain(quantity)}
	for {
		before, rest, ok := strings.Cut(quantity, figure)
		q.Words = append(q.Words, Plain(before))
		if !ok {
			return q
		}
		one, after, _ := strings.Cut(rest, past)
		q.Values = append(q.Values, Value(one))
		quantity = after
	}
}

// Value is what a figure says in full: of a figure of a quantity what stands in its mark, else the number itself; 0 of what is none.
func Value(text string) float64 {
	if _, full, ok := strings.Cut(text, exact); ok {
		text, _, _ = strings.Cut(full, past)
	}
	v, _ := strconv.ParseFloat(text, 64) // the marks and the patterns of who asks let only numbers through
	return v
}
