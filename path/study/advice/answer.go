package advice

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

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
	text := fmt.Sprintf("At %s the quietest is \"%s\": %.0f dB(A), in eight cases of ten between %.0f and %.0f", listener, b.Layout, spectrum.Whole(b.Level), spectrum.Whole(b.Low), spectrum.Whole(b.High))
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
