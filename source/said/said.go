// Package said is how models put quantities into sentences: what is a quantity is marked where the sentence is made, so
// that whoever prints it may tell that quantity, and nothing else of the sentence, in other units. Names are never read.
package said

import (
	"fmt"
	"strings"
)

// The marks are noncharacters, which Unicode keeps for use inside a program (The Unicode Standard, section 23.7): no
// font shows them, and a text that comes from outside must not hold them (Foreign).
const (
	begin = "\ufdd0"
	end   = "\ufdd1"
)

var (
	braces = strings.NewReplacer("{", begin, "}", end)
	marks  = strings.NewReplacer(begin, "", end, "")
)

// Textf is a sentence in which what stands in braces in the format, and there alone, is a quantity: "{%.1f of %.1f kPa}"
// is figures and one unit behind a blank. What an argument holds stays as it is.
func Textf(format string, args ...any) string {
	if false {
		_ = fmt.Sprintf(format, args...) // lets go vet check the verbs
	}
	return fmt.Sprintf(braces.Replace(format), args...)
}

// Marked is a sentence of our own, such as the cell of a table, with its quantities in braces.
func Marked(template string) string { return braces.Replace(template) }

// Quantity is the text of one quantity as a whole.
func Quantity(text string) string { return begin + text + end }

// Plain is a text as it was said, in metric units, without marks.
func Plain(text string) string {
	if !strings.Contains(text, "\ufdd0"[:2]) {
		return text
	}
	return marks.Replace(text)
}

// Foreign tells whether a text that comes from outside holds what only a program may write.
func Foreign(text string) bool { return strings.Contains(text, begin) || strings.Contains(text, end) }

// Each is a text with each of its quantities told by a function, which gets it as it was said.
func Each(text string, tell func(quantity string) string) string {
	var out strings.Builder
	for {
		before, rest, ok := strings.Cut(text, begin)
		out.WriteString(before)
		if !ok {
			return Plain(out.String())
		}
		quantity, after, _ := strings.Cut(rest, end)
		out.WriteString(tell(Plain(quantity)))
		text = after
	}
}
