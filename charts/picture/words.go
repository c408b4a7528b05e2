package picture

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// Escape makes text of a name: no markup, no control characters, nothing that turns the direction of writing.
func Escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&#34;")
		case r == '\'':
			b.WriteString("&#39;")
		default:
			b.WriteRune(plain(r))
		}
	}
	return b.String()
}

// plain puts a blank for control characters and a mark for those that turn the direction of writing or are no text.
func plain(r rune) rune {
	switch {
	case unicode.IsControl(r), r == '\u2028', r == '\u2029':
		return ' '
	case unicode.Is(unicode.Cf, r) && !unicode.Is(unicode.Join_Control, r) && r != '\u00ad', r == '\ufffe', r == '\uffff':
		return '\ufffd'
	}
	return r
}

// advances are those of a wide sans face from blank to tilde, hundredths of the size of the text: narrower faces fit.
var advances = [...]int{32, 40, 46, 84, 64, 95, 78, 27, 39, 39, 50, 84, 32, 36, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84, 84, 84, 53,
	100, 68, 69, 70, 77, 63, 58, 77, 75, 29, 29, 66, 56, 86, 75, 79, 60, 79, 69, 63, 61, 73, 68, 99, 69, 61, 69, 39, 34, 39, 84, 50,
	50, 61, 63, 55, 63, 62, 35, 63, 63, 28, 28, 58, 28, 97, 63, 61, 63, 63, 41, 52, 39, 63, 59, 82, 59, 59, 52, 64, 34, 64, 84}

// bolder is how much wider bold text is.
const bolder = 1.13

// wide is how wide a text is drawn at a size.
func wide(s string, size float64) float64 {
	sum := 0
	for _, r := range s {
		switch r = plain(r); {
		case r >= ' ' && r <= '~':
			sum += advances[r-' ']
		case r == '\u00a0':
			sum += advances[0]
		case r < 0x2e80:
			sum += 75
		default:
			sum += 125
		}
	}
	return float64(sum) / 100 * size
}

// short cuts a text to a width, with dots.
func short(s string, size, width float64) string {
	if wide(s, size) <= width {
		return s
	}
	r := []rune(s)
	for len(r) > 1 && wide(string(r)+"…", size) > width {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ,;:") + "…"
}

// wrapped breaks a text at blanks into at most so many lines of a width; the last is cut short.
func wrapped(s string, size, width float64, most int) (lines []string) {
	if s = glued(s); s == "" {
		return nil
	}
	words := strings.Split(s, " ")
	for len(words) > 0 {
		n := 1
		for n < len(words) && wide(strings.Join(words[:n+1], " "), size) <= width {
			n++
		}
		if len(lines) == most-1 {
			n = len(words)
		}
		lines = append(lines, short(strings.Join(words[:n], " "), size, width))
		words = words[n:]
	}
	return lines
}

// glued keeps figure and unit on one line.
func glued(s string) string {
	r := []rune(strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || unicode.IsControl(r) }), " "))
	for i := 1; i+1 < len(r); i++ {
		if r[i] == ' ' && r[i-1] >= '0' && r[i-1] <= '9' {
			r[i] = '\u00a0'
		}
	}
	return string(r)
}

// decibels prints a level as people read it; below the threshold of hearing it is silent.
func decibels(db float64) string {
	if db < 0 {
		return "silent"
	}
	return whole(db)
}

// whole is the rule by which levels are told everywhere (spectrum.Whole), without its tables.
func whole(db float64) string {
	return strconv.FormatFloat(math.Round(math.Round(math.Round(db*1e3)/100)/10)+0, 'f', 0, 64)
}

// signed is a difference to a tenth, with a true minus and never a minus zero.
func signed(v float64) string {
	switch t := strconv.FormatFloat(math.Abs(v), 'f', 1, 64); {
	case t == "0.0":
		return t
	case v < 0:
		return "−" + t
	default:
		return "+" + t
	}
}

// Listed joins parts in words: "a, b and c".
func Listed(all []string) string {
	if n := len(all); n > 1 {
		return strings.Join(all[:n-1], ", ") + " and " + all[n-1]
	}
	return strings.Join(all, "")
}

// trimmed prints a number without noughts at its end.
func trimmed(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// counted is a small number in words.
func counted(n int) string {
	names := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	if n < len(names) {
		return names[n]
	}
	return strconv.Itoa(n)
}
