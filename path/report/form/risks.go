package form

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Risk is a refusal, a question or a hazard: its sort, and what it is with the point first.
type Risk struct{ Sort, Text string }

const (
	riskLetters = 63 // that a line behind the sort has on the narrowest page
	danger      = "danger"
	warning     = "warning"
)

// sorts of risks and their names, gravest first.
var sorts = [][2]string{{"refused", "refusal"}, {"ask", "question"}, {danger, danger}, {warning, warning}, {"caution", "caution"}, {"note", "note"}}

// Risks adds the first of them, gravest first, in so many lines, and counts the others beside what more there is of each sort.
func (t *Text) Risks(all []Risk, room int, more map[string]int) (left string) {
	lines := roomFor(all, room)
	for k, r := range all {
		if k < len(lines) {
			t.Brief(lines[k], fmt.Sprintf("%-8s ", r.Sort), "%s", r.Text)
		} else {
			more[r.Sort]++
		}
	}
	var words []string
	for _, s := range sorts {
		if n := more[s[0]]; n > 0 {
			words = append(words, Counted(n, s[1]))
		}
	}
	return strings.Join(words, ", ")
}

// roomFor gives the lines that each of the first may take: one, and a second for a danger that has more to say, then for
// whatever else is graver than a warning, before any warning has one.
func roomFor(all []Risk, room int) (lines []int) {
	room = max(0, room)
	for len(lines) < min(len(all), room) && all[len(lines)].Sort != warning {
		lines = append(lines, 1)
	}
	room -= len(lines)
	for _, dangers := range []bool{true, false} {
		for k := range lines {
			if long := utf8.RuneCountInString(all[k].Text) > riskLetters; long && room > 0 && dangers == (all[k].Sort == danger) {
				lines[k], room = 2, room-1
			}
		}
	}
	for ; len(lines) < len(all) && room > 0; room-- {
		lines = append(lines, 1)
	}
	return lines
}

// Runs joins numbers, three and more that follow each other as a span.
func Runs(all []string) string {
	var out []string
	for i := 0; i < len(all); {
		n, err := strconv.Atoi(all[i])
		k := i
		for err == nil && k+1 < len(all) && all[k+1] == strconv.Itoa(n+k+1-i) {
			k++
		}
		if k < i+2 {
			k = i
			out = append(out, all[i])
		} else {
			out = append(out, all[i]+"-"+all[k])
		}
		i = k + 1
	}
	return strings.Join(out, ", ")
}
