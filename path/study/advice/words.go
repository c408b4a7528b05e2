package advice

import (
	"fmt"
	"math"
	"strings"
)

// Difference puts a difference of two levels into words. About 3 dB is just heard side by side; what is plainly more is told by
// the rule that 10 dB halve the loudness (sone scale; below 40 phon it falls faster), for want of the spectra: see Loudness.
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
	case d < 7.4:
		return "plainly heard"
	}
	return strings.TrimSuffix(Loudness(math.Pow(2, db/10)), " as")
}

// Loudness puts a ratio of loudnesses into words behind which the other sound stands.
func Loudness(x float64) string {
	for _, w := range []struct {
		to   float64
		word string
	}{{0.18, "far less than a quarter as loud as"}, {0.29, "about a quarter as loud as"}, {0.4, "about a third as loud as"}, {0.6, "about half as loud as"},
		{0.9, "somewhat less loud than"}, {1.1, "about as loud as"}, {1.6, "somewhat louder than"},
		{2.5, "about twice as loud as"}, {3.5, "about three times as loud as"}, {5, "about four times as loud as"}} {
		if x < w.to {
			return w.word
		}
	}
	return "many times as loud as"
}

// Heard is Difference of two levels, dB, with how many times as loud it is by sones, a ratio, in the place of the rule; 0 where that is not known.
func Heard(db, times float64) string {
	if math.Abs(db) < 7.4 || !(times > 0) {
		return Difference(db)
	}
	words, _ := strings.CutSuffix(Loudness(times), " as")
	return fmt.Sprintf("%s, %.2g times by sones", strings.TrimSuffix(words, " than"), times)
}

// heard puts the difference of a choice to another at a seat into words.
func heard(of, to Choice, seat int) string {
	times := 0.0
	if len(of.Sones) > seat && len(to.Sones) > seat && to.Sones[seat] > 0 {
		times = of.Sones[seat] / to.Sones[seat]
	}
	return Heard(median(of, seat)-median(to, seat), times)
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
