package charts

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"hushwake/charts/gloss"
	"hushwake/charts/plot"
	"hushwake/path/report"
)

// placesSection is every layout at every place: cards where the page is narrow, a table where it is wide.
func placesSection(r *report.Page, u unitSet, d *drawer) section {
	s := section{ID: "places", Title: "The layouts side by side: " + keepers(r), Sheet: 2, Terms: gloss.Of("dB(A)", "band", "limit", "back pressure", "Schroeder frequency")}
	s.Terms = append(s.Terms, gloss.Spoken(warned(r), "bellows", "lagging", "trunk", "lift chamber", "riser")...)
	s.Tables = []table{placesTable(r, u, d)}
	if len(r.Listeners) == 0 {
		s.Lead = []string{"The boat file names no listener, so there is no level to show."}
	}
	if refused := refusedList(r); len(refused.Items) > 0 {
		s.Folds = append(s.Folds, fold{Label: fmt.Sprintf("Why layouts are refused (%d)", len(refused.Items)), matter: matter{Lists: []list{refused}}})
	}
	for j, l := range r.Listeners {
		s.Folds = append(s.Folds, fold{Label: "At " + l.Name + ": what the levels mean, and their chances", matter: matter{Lead: []string{listenerNote(l)}, Tables: []table{levelTable(r, j)}}})
	}
	return s
}

// warned is what the dangers, and the reasons for which layouts are refused, say.
func warned(r *report.Page) (all string) {
	for _, d := range slices.Concat(dangers(r), refusedList(r).Items) {
		all += strings.ToLower(d.Text+" "+strings.Join(d.Detail, " ")) + "\n"
	}
	return all
}

// keepers says how many layouts that may be built keep all the limits.
func keepers(r *report.Page) string {
	limits, kept, judged := 0, 0, 0
	for _, l := range r.Listeners {
		if l.LimitDBA != nil {
			limits++
		}
	}
	for i, y := range r.Layouts {
		if !y.Refused && y.Verdict != report.VerdictAsk {
			judged++
			if overAt(r, i) == "" {
				kept++
			}
		}
	}
	switch {
	case limits == 0:
		return "no limit is stated"
	case kept == 0:
		return "none keeps every limit"
	case kept == judged:
		return "every one that may be built keeps the limits"
	}
	return fmt.Sprintf("%d of %d keep every limit", kept, judged)
}

// placesTable has a row for each layout and a column for each place.
func placesTable(r *report.Page, u unitSet, d *drawer) table {
	money := currency(r)
	t := table{Caption: "Level in dB(A), the middle of its band, at the running duty; the dashed line is the limit" + axisSaid(r), Cards: true, Head: []string{"Layout", "verdict"}}
	for _, l := range r.Listeners {
		t.Head = append(t.Head, l.Name+limitOfPlace(l))
	}
	t.Head = append(t.Head, "back pressure, of its limit", "hottest skin, "+u.temperature.unit, "price, "+money.unit)
	for i, y := range r.Layouts {
		name := cell{Text: titled(r, i) + rankSaid(r, i)}
		if i == r.Chosen {
			name.Class = "chosen"
		}
		row := []cell{name, verdictOn(r, i)}
		for j := range r.Listeners {
			c := levelCell(r, i, j)
			c.Picture = d.band(r, i, j, fmt.Sprintf("band-%d-%d", i+1, j+1))
			if i == r.Chosen {
				c.Class += " chosen"
			}
			row = append(row, c)
		}
		of := shareOfLimit(worstExhaust(y)) + y.AsRead
		if y.Verdict == report.VerdictAsk {
			of = "?"
		}
		t.Rows = append(t.Rows, append(row, num(of), num(u.temperature.bare(hottest(y))), num(y.PriceFrom()+money.bare(y.Price))))
	}
	return t
}

func rankSaid(r *report.Page, i int) string {
	switch i {
	case r.Chosen:
		if len(openSlots(r)) > 0 {
			return ", first of the whole ones"
		}
		return ", advised"
	case r.Today:
		return ", now on board"
	}
	return ""
}

func limitOfPlace(l report.PageListener) string {
	if l.LimitDBA == nil {
		return ""
	}
	return " (limit\u00a0" + limitDB.bare(l.LimitDBA) + ")"
}

// hottest is the hottest outside of any line of a layout, °C at rated.
func hottest(y report.PageLayout) (top *float64) {
	for _, e := range y.Exhausts {
		for _, a := range e.Along {
			if a.SkinC != nil && (top == nil || *a.SkinC > *top) {
				top = a.SkinC
			}
		}
	}
	return top
}

// verdictOn says in words whether a layout is out, or how far over which limit it is at worst.
func verdictOn(r *report.Page, i int) cell {
	l := r.Layouts[i]
	switch {
	case l.Verdict == report.VerdictAsk:
		return words("ask first")
	case l.Measured:
		return cell{Text: "over limit (measured)", Class: "bad"}
	case l.Refused:
		return cell{Text: strings.TrimRight("refused: "+l.RefusedFor, ": "), Class: "bad"}
	}
	if box := hurtsEngine(r, i); box != "" {
		return cell{Text: keeps(r, i) + "; engine " + box + " in its box", Class: "bad"}
	}
	return words(keeps(r, i))
}

// hurtsEngine is what a box of the layout does to its engine, empty where it does no harm.
func hurtsEngine(r *report.Page, i int) string {
	for _, e := range r.Enclosures {
		for _, v := range e.Verdicts {
			if (v.Code == "starved" || v.Code == "cooked") && slices.Contains(e.Places, i) {
				return v.Code
			}
		}
	}
	return ""
}

// keeps names the worst excess of a layout over the stated limits.
func keeps(r *report.Page, i int) string {
	limits, worst := 0, -1
	for j, l := range r.Listeners {
		if v := r.Layouts[i].Heard[j].LevelDBA; l.LimitDBA != nil && v != nil {
			limits++
			if d := excess(r, i, j); d > 0 && (worst < 0 || d > excess(r, i, worst)) {
				worst = j
			}
		}
	}
	switch {
	case limits == 0:
		return "no limit stated"
	case worst < 0:
		return "keeps every limit"
	}
	return "over by " + wholeOver(excess(r, i, worst)) + " at " + r.Listeners[worst].Name
}

// whole prints a level to the whole decibel, which is as fine as a prediction bears.
func whole(v *float64) string { return wholeDB.bare(v) }

func listenerNote(l report.PageListener) string {
	var parts []string
	if l.Where != "" {
		parts = append(parts, l.Where)
	}
	if l.Hours != nil {
		parts = append(parts, fmt.Sprintf("%g h a day", plot.Rounded(*l.Hours, 2)))
	}
	if l.LimitDBA != nil {
		parts = append(parts, "limit "+limitDB.text(l.LimitDBA))
	} else {
		parts = append(parts, "no limit was stated")
	}
	return capital(strings.Join(parts, "; ")) + "."
}

// capital begins a sentence.
func capital(s string) string {
	first, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[n:]
}

// lower goes on in a sentence.
func lower(s string) string {
	first, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToLower(first)) + s[n:]
}

func levelTable(r *report.Page, j int) table {
	t := table{Caption: "Levels at " + r.Listeners[j].Name, Cards: true, Head: []string{"Layout", "dB(A)", "10th to 90th percentile", "dB(C)",
		"noise rating", "what stands out", "loudness, sone", "times as loud", "chance to be the quietest", "chance over the limit"}}
	for i, y := range r.Layouts {
		h := y.Heard[j]
		t.Rows = append(t.Rows, []cell{words(titled(r, i)), num(decibelA.bare(h.LevelDBA)), num(decibelA.span(h.LowDBA, h.HighDBA)),
			num(decibel.bare(h.LevelDBC)), num(wholeDB.bare(h.NR)), words(tone(h.Ear)), num(sones(h.Ear)), num(timesAsLoud(h.Ear)), num(quietest(y, h)), num(chance(h.ProbabilityOverLimit))})
	}
	t.Notes = append(meanings(r, j), earNote(r, j)...)
	for _, y := range r.Layouts {
		if p := y.Heard[j].Quietest; p != nil && *p > 0.8 && y.Wet != allWet(r, y.Wet) {
			t.Notes = append(t.Notes, "The chances set wet against dry as far as physics tells: no boat has been measured wet and dry.")
		}
	}
	return t
}

// allWet is wet where every layout is as the one asked of, else the other.
func allWet(r *report.Page, wet bool) bool {
	for _, y := range r.Layouts {
		if y.Wet != wet && !y.Refused {
			return !wet
		}
	}
	return wet
}

// meanings says what the levels mean, what is said of every layout first; sentences that differ in figures only are one.
func meanings(r *report.Page, j int) []string {
	var means [][]string
	for _, y := range r.Layouts {
		means = append(means, y.Heard[j].Means)
	}
	var all, some []string
	for _, s := range report.Together(means) {
		if len(s.In) == len(r.Layouts) {
			all = append(all, s.Text)
			continue
		}
		of := layoutsSaid(r, s.In) + ": "
		if k := slices.IndexFunc(some, func(t string) bool { return strings.HasPrefix(t, of) }); k >= 0 {
			some[k] += " " + s.Text
			continue
		}
		some = append(some, of+s.Text)
	}
	if len(all) > 0 && len(r.Layouts) > 1 {
		all = []string{"With every layout: " + strings.Join(all, " ")}
	}
	return append(all, some...)
}

// quietest is the chance to be the quietest; a refused layout does not compete.
func quietest(y report.PageLayout, h report.Listener) string {
	if y.Refused {
		return "refused"
	}
	return chance(h.Quietest)
}

func chance(p *float64) string {
	if p == nil {
		return "–"
	}
	switch {
	case *p < 0.01:
		return "under 1\u00a0%"
	case *p > 0.99:
		return "over 99\u00a0%"
	}
	return percent.text(p)
}

// shortened cuts a long name for an axis; the whole name stands in the table.
func shortened(s string, n int) string {
	runes := []rune(s)
	if len(runes) <= n {
		return s
	}
	return strings.TrimSpace(string(runes[:n-1])) + "…"
}

// refusedList says in words which layouts are out, and why.
func refusedList(r *report.Page) list {
	l := list{}
	for i, y := range r.Layouts {
		if !y.Refused {
			continue
		}
		why := "No reason was handed over."
		if len(y.Refusals) > 0 {
			why = strings.Join(y.Refusals, " ")
		}
		l.Items = append(l.Items, item{Kind: "refused", Text: fmt.Sprintf("%s · %s. %s", tag(r, i), y.Name, why)})
	}
	return l
}
