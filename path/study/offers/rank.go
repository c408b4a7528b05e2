package offers

import (
	"fmt"
	"sort"

	"hushwake/path"
	"hushwake/path/study/survey"
)

// Rank orders the offers that can be judged by the level at a listener of the best layout that
// uses them, refused layouts last, and gives each the reading to expect after fitting. Offers that
// can't be judged come last, without a rank.
func Rank(judged []Judged, predictions []path.Prediction, listener string, acceptance []survey.Expected) []Judged {
	all := append([]Judged(nil), judged...)
	for i := range all {
		for _, p := range predictions {
			if p.Layout != nil && usesOffer(p.Layout, all[i].Name) {
				all[i].place(p, listener, acceptance)
			}
		}
	}
	sort.SliceStable(all, func(a, b int) bool {
		x, y := all[a], all[b]
		if x.class() != y.class() {
			return x.class() < y.class()
		}
		return x.class() < 2 && *x.Level < *y.Level
	})
	for i := range all {
		switch all[i].class() {
		case 0:
			all[i].Rank = i + 1
		case 1:
			all[i].Verdict += fmt.Sprintf(" But \"%s\" with it is refused.", all[i].Layout)
		}
	}
	return all
}

// place takes the layout for the offer's own where it is better than the one so far: kept before
// refused, then the quieter.
func (j *Judged) place(p path.Prediction, listener string, acceptance []survey.Expected) {
	if !j.Judgeable {
		j.Layout = p.Layout.Name // it can't be said what it will read
		return
	}
	for _, e := range acceptance {
		if e.Layout != p.Layout.Name || e.Listener != listener {
			continue
		}
		kept := j.Refused && !p.Refused
		quieter := j.Level != nil && j.Refused == p.Refused && e.Level < *j.Level
		if j.Level == nil || kept || quieter {
			level, low, high := e.Level, e.Low, e.High
			j.Layout, j.Refused, j.Level, j.Low, j.High, j.CantTell = e.Layout, p.Refused, &level, &low, &high, e.CantTell
		}
	}
}

// class is 0 for an offer that can be ranked, then refused, without a layout, and not to be judged.
func (j *Judged) class() int {
	switch {
	case !j.Judgeable:
		return 3
	case j.Level == nil:
		return 2
	case j.Refused:
		return 1
	}
	return 0
}

func usesOffer(l *path.Layout, quote string) bool {
	for _, q := range l.Quotes {
		if q == quote {
			return true
		}
	}
	return false
}
