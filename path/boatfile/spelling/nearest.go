package spelling

import (
	"slices"
	"strings"

	"hushwake/path"
)

// Nearest gives the word of a list that is close to what was written, or "".
func Nearest(word string, list []string) string {
	w := strings.ToLower(strings.TrimSpace(word))
	if c := sameWords(w, list); c != "" {
		return c
	}
	best, bestCost := "", max(2, len([]rune(w))/3+1)
	for _, c := range list {
		lc := strings.ToLower(c)
		if fold(lc) == fold(w) {
			return c
		}
		cost := Distance(w, lc)
		if len(lc) >= 2 && strings.HasPrefix(w, lc) || len(w) >= 3 && strings.HasPrefix(lc, w) {
			cost = min(cost, 1)
		}
		if cost < bestCost && cost < max(len([]rune(lc)), 2) {
			best, bestCost = c, cost
		}
	}
	return best
}

// openAir is what people call what lies outside.
var openAir = []string{"outdoors", "outdoor", "open air", "the open", "the open air", "open", "atmosphere"}

// sameWords is the one of a list that has the same words in another order, or the only one with that word in it; "" = none.
func sameWords(w string, list []string) (found string) {
	if slices.Contains(openAir, w) && slices.Contains(list, path.Outside) {
		return path.Outside
	}
	words := strings.Fields(w)
	slices.Sort(words)
	for _, c := range list {
		parts := strings.Fields(strings.ToLower(c))
		slices.Sort(parts)
		switch {
		case len(parts) > 1 && slices.Equal(words, parts):
			return c
		case len(parts) > 1 && slices.Contains(parts, w) && found != "":
			return ""
		case len(parts) > 1 && slices.Contains(parts, w):
			found = c
		}
	}
	return found
}

var gaps = strings.NewReplacer("_", "", "-", "", " ", "")

// fold drops what people write differently between the same words.
func fold(s string) string {
	return gaps.Replace(s)
}

// distance counts insertions, deletions, substitutions and swaps of neighbours between two words
// (optimal string alignment distance).
func Distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	if len(x) > 80 || len(y) > 80 {
		return max(len(x), len(y))
	}
	var before, last []int
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(x); i++ {
		before, last, row = last, row, make([]int, len(y)+1)
		row[0] = i
		for j := 1; j <= len(y); j++ {
			same := 1
			if x[i-1] == y[j-1] {
				same = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+same)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
	}
	return row[len(y)]
}

// didYouMean words a hint, or gives "".
func DidYouMean(word string, list []string) string {
	if n := Nearest(word, list); n != "" {
		return "did you mean \"" + n + "\"?"
	}
	return ""
}

// Clip keeps hostile texts short in messages.
func Clip(s string) string {
	r := []rune(s)
	if len(r) > 60 {
		return string(r[:57]) + "..."
	}
	return s
}
