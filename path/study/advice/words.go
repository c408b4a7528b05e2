package advice

import (
	"fmt"
	"math"
	"strings"
)

// Difference puts a difference of two levels into words. About 3 dB is just heard side by side and
// about 10 dB halves the loudness (sone scale, ISO 532-1; below 40 phon it falls faster).
func Difference(db float64) string {
	d := math.Abs(db)
	switch {
	case math.IsNaN(d):
		return "unknown"
	case d < 1:
		return "no difference that anyone hears"
	case d < 2:
		return "hardly a difference to the ear"
	case d < 4:
		return fmt.Sprintf("barely heard, though %.1f times the energy", math.Pow(10, db/10))
	case d < 7:
		return "plainly heard"
	case d < 13:
		return loudness(db, "half", "twice")
	case d < 17:
		return loudness(db, "a third", "three times")
	case d < 24:
		return loudness(db, "a quarter", "four times")
	}
	return fmt.Sprintf("about %s as loud", fraction(db))
}

func loudness(db float64, less, more string) string {
	if db < 0 {
		return "about " + less + " as loud"
	}
	return "about " + more + " as loud"
}

// fraction is 2^(dB/10) in words of figures.
func fraction(db float64) string {
	n := math.Round(math.Pow(2, math.Abs(db)/10))
	if db < 0 {
		return fmt.Sprintf("1/%.0f", n)
	}
	return fmt.Sprintf("%.0f times", n)
}

// chance puts a probability into words.
func chance(p float64) string {
	p = math.Round(100*p) / 100 // as it is printed beside
	switch {
	case p >= 0.99:
		return "almost certainly"
	case p >= 0.9:
		return "very likely"
	case p >= 0.6:
		return "likely"
	case p > 0.4:
		return "perhaps (about even)"
	case p > 0.1:
		return "less likely than not"
	case p > 0.01:
		return "unlikely"
	}
	return "almost certainly not"
}

// unmeasured is said with every chance that sets wet against dry.
const unmeasured = "as far as physics tells: no boat has been measured wet and dry"

func quoted(name string) string { return "\"" + name + "\"" }

// Listed joins names with commas and an and.
func Listed(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

func underOver(d float64) string {
	if d < 0 {
		return "under"
	}
	return "over"
}
