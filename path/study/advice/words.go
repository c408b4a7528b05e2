package advice

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/study/draws"
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

// Heard is Difference, with how many times as loud it is by sones in the place of the rule where that is known: times over 0.
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

// Answer says what a listener should know: what to do, which layout is the quietest and how sure that
// is, and what was refused, has to be asked about, or would make it surer. Terms are those of Matters
// for the best layout; read says that the file holds a reading of this seat.
func Answer(a Advice, r Ranking, terms []draws.Share, read bool) []string {
	var kept []Ranked
	var refused, asked []string
	for _, row := range r.Rows {
		switch {
		case row.Refused:
			refused = append(refused, quoted(row.Layout))
		case row.Asked():
			asked = append(asked, quoted(row.Layout))
		default:
			kept = append(kept, row)
		}
	}
	quietest := ""
	if len(kept) > 0 {
		quietest = bestText(r.Listener, kept)
	}
	return []string{a.Text(), quietest, refusalText(refused) + askText(asked) + doubtText(terms, read)}
}

func askText(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return "Ask first, before it is judged: " + strings.Join(names, ", ") + ". "
}

func bestText(listener string, kept []Ranked) string {
	b := kept[0]
	text := fmt.Sprintf("At %s the quietest is \"%s\": %.0f dB(A), in eight cases of ten between %.0f and %.0f", listener, b.Layout, b.Level, b.Low, b.High)
	if len(kept) > 1 && kept[1].Level-b.Level < unheard {
		return text + fmt.Sprintf("; nobody hears its lead over \"%s\"%s.", kept[1].Layout, surer(kept))
	}
	if len(kept) > 1 {
		text += fmt.Sprintf("; it is %s the quietest of all (%.0f %%)", chance(b.Quietest), 100*b.Quietest)
		if b.Quietest > unmeasuredChance && wetAgainstDry(kept) {
			text += ", " + unmeasured
		}
	}
	return text + surer(kept) + "."
}

// surer names the layout that has the greater chance of keeping the limit of the place than the quietest by the median.
func surer(kept []Ranked) string {
	least := kept[0]
	for _, r := range kept {
		if r.Over != nil && least.Over != nil && *r.Over < *least.Over {
			least = r
		}
	}
	if least.Over == nil || math.Round(100**least.Over) == math.Round(100**kept[0].Over) {
		return ""
	}
	return fmt.Sprintf("; %s likelier keeps the limit, %.0f %% over it against %.0f %%", quoted(least.Layout), 100**least.Over, 100**kept[0].Over)
}

// unmeasured is said with every chance that sets wet against dry.
const unmeasured = "as far as physics tells: no boat has been measured wet and dry"

// unmeasuredChance is the most that may be said of wet against dry without it.
const unmeasuredChance = 0.8

// wetAgainstDry says whether the first differs from another in having a wet line.
func wetAgainstDry(kept []Ranked) bool {
	for _, r := range kept[1:] {
		if r.Wet != kept[0].Wet {
			return true
		}
	}
	return false
}

func refusalText(names []string) string {
	switch len(names) {
	case 0:
		return ""
	case 1:
		return "Refused, whatever its level: " + names[0] + ". "
	}
	return "Refused, whatever their levels: " + strings.Join(names, ", ") + ". "
}

func doubtText(terms []draws.Share, read bool) string {
	doubt, first, several := "the doubt", "; one reading at this seat would take out much of it", " One reading at this seat narrows what its ways in have in common."
	if read {
		doubt, first, several = "the doubt that the readings leave", "", ""
	}
	switch {
	case len(terms) == 0:
		return "The estimate is no design approval: the engine maker's limit and local codes govern."
	case terms[0].Share > 0.5:
		return fmt.Sprintf("Most of %s is the %s (%.0f %% of the variance)%s.", doubt, terms[0].Name, 100*terms[0].Share, first)
	}
	var largest []string
	for _, t := range terms[:min(3, len(terms))] {
		largest = append(largest, fmt.Sprintf("the %s (%.0f %% of the variance)", named(t, terms), 100*t.Share))
	}
	return fmt.Sprintf("No one cause makes most of %s; the largest are %s.%s", doubt, strings.Join(largest, ", "), several)
}

// named is the name of a term, with what it belongs to where another of the largest has the same name.
func named(t draws.Share, terms []draws.Share) string {
	for _, o := range terms[:min(3, len(terms))] {
		if o.Name != t.Name || o.Key == t.Key || t.Of() == "" {
			continue
		}
		if more, ok := strings.CutPrefix(t.Of(), t.Name+" "); ok { // "hull not stated" of a hull
			return t.Name + ", " + more
		}
		return t.Name + " of " + t.Of()
	}
	return t.Name
}
