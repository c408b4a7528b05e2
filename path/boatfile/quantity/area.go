package quantity

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/boatfile/spelling"
)

// counts are the words that stand before holes.
var counts = map[string]float64{"a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "six": 6, "1": 1, "2": 2, "3": 3, "4": 4, "5": 5, "6": 6, "8": 8}

// openingArea reads openings as people describe them: "80 mm hole", "two 4 in holes" and
// "300 mm x 200 mm". ok is false when the text is no such thing.
func openingArea(s string) (q Quantity, ok bool, err error) {
	words := strings.Fields(strings.ToLower(strings.ReplaceAll(s, "×", " x ")))
	if n := len(words); n >= 2 && (words[n-1] == "hole" || words[n-1] == "holes") {
		return holes(words[:n-1], s)
	}
	for i, w := range words {
		if w == "x" && i > 0 && i < len(words)-1 {
			return rectangle(strings.Join(words[:i], " "), strings.Join(words[i+1:], " "), s)
		}
	}
	return Quantity{}, false, nil
}

func holes(words []string, s string) (Quantity, bool, error) {
	n := 1.0
	if c, counted := counts[words[0]]; counted && len(words) > 2 {
		n, words = c, words[1:]
	}
	if len(words) > 1 && words[0] == "round" {
		words = words[1:]
	}
	d, err := Parse(strings.Join(words, " "), Length)
	if err != nil {
		return Quantity{}, true, err
	}
	q, err := finish(n*math.Pi/4*d.Value*d.Value, unit{"m2", Area, 1, 0, ""}, s)
	q.Note = fmt.Sprintf("round, %s altogether", Format(q.Value*1e4, Number, Metric)+" cm2")
	return q, true, err
}

func rectangle(a, b, s string) (Quantity, bool, error) {
	w, errA := Parse(a, Length)
	h, errB := Parse(b, Length)
	if errA != nil || errB != nil {
		hint := "give both sides with their units, such as 300 mm x 200 mm"
		if _, unit, err := LeadingNumber(b); err == nil && errB == nil {
			hint = "write " + a + " " + strings.TrimSpace(unit) + " x " + b
		}
		return Quantity{}, true, Bad(hint, "%q is no rectangle", spelling.Clip(s))
	}
	q, err := finish(w.Value*h.Value, unit{"m2", Area, 1, 0, ""}, s)
	return q, true, err
}
