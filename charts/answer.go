package charts

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path/report"
)

// glance is the table under the answer: every layout at every place, the engine and the price.
func glance(r *report.Page, u unitSet) table {
	money := currency(r)
	t := table{Caption: "The layouts at a glance: level in dB(A) at each place, the middle of its band, clean, at the running duty", Head: []string{"Layout", "verdict"}}
	for _, l := range r.Listeners {
		t.Head = append(t.Head, l.Name+limitOfPlace(l))
	}
	t.Head = append(t.Head, "rated back pressure, "+u.pressure.unit, "of the engine's limit", "price, "+money.unit)
	for i, y := range r.Layouts {
		m := lookOf(i).mark("")
		row := []cell{{Text: titled(r, i), Mark: &m}, verdictOn(r, i)}
		for j, l := range r.Listeners {
			row = append(row, glanceLevel(y.Heard[j].LevelDBA, l.LimitDBA))
		}
		worst := worstExhaust(y)
		row = append(row, num(u.pressure.bare(worst.RatedBackPressure)), num(shareOfLimit(worst)), num(money.bare(y.Price)))
		t.Rows = append(t.Rows, row)
	}
	return t
}

func limitOfPlace(l report.PageListener) string {
	if l.LimitDBA == nil {
		return ""
	}
	return " (limit\u00a0" + limitDB.bare(l.LimitDBA) + ")"
}

func glanceLevel(v, limit *float64) cell {
	c := num(whole(v))
	if v != nil && limit != nil && *v > *limit {
		if c.Text == whole(limit) {
			c.Text = decibelA.bare(v)
		}
		c.Text, c.Class = c.Text+" over", "bad"
	}
	return c
}

// verdictOn says in words whether a layout is out, and how many limits it keeps.
func verdictOn(r *report.Page, i int) cell {
	switch l := r.Layouts[i]; {
	case l.Verdict == report.VerdictAsk:
		return words("ask first")
	case l.Measured:
		return cell{Text: "over limit (measured)", Class: "bad"}
	case l.Refused:
		return cell{Text: "refused", Class: "bad"}
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
			if v.Code != "ok" && slices.Contains(e.Places, i) {
				return v.Code
			}
		}
	}
	return ""
}

// keeps says how many of the stated limits a layout keeps.
func keeps(r *report.Page, i int) string {
	limits, kept := 0, 0
	for j, l := range r.Listeners {
		if v := r.Layouts[i].Heard[j].LevelDBA; l.LimitDBA != nil && v != nil {
			limits++
			if *v <= *l.LimitDBA {
				kept++
			}
		}
	}
	switch {
	case limits == 0:
		return "no limit stated"
	case kept == limits:
		return "keeps every limit"
	case kept == 0:
		return "over every limit"
	}
	return fmt.Sprintf("keeps %d of %d limits", kept, limits)
}

// worstExhaust is the line nearest to its limit, or the one of the highest pressure.
func worstExhaust(l report.PageLayout) report.Exhaust {
	var worst report.Exhaust
	most := -1.0
	for _, e := range l.Exhausts {
		if e.RatedBackPressure == nil {
			continue
		}
		of := *e.RatedBackPressure / 1e6 // below any share of a limit
		if e.Limit != nil && *e.Limit > 0 {
			of = *e.RatedBackPressure / *e.Limit
		}
		if of > most {
			worst, most = e, of
		}
	}
	return worst
}

func shareOfLimit(e report.Exhaust) string {
	if e.RatedBackPressure == nil || e.Limit == nil || *e.Limit <= 0 {
		return "–"
	}
	of := *e.RatedBackPressure / *e.Limit
	return percent.text(&of)
}

// firstAllowed is the first layout that can be judged and is not refused, -1 if there is none.
func firstAllowed(r *report.Page) int {
	for i, l := range r.Layouts {
		if !l.Refused && !l.Measured && l.Verdict != report.VerdictAsk {
			return i
		}
	}
	return -1
}

// engineCost says what the first layout that is not refused asks of each engine.
func engineCost(r *report.Page, u unitSet) []string {
	i := firstAllowed(r)
	if i < 0 {
		return nil
	}
	var out []string
	for _, e := range r.Layouts[i].Exhausts {
		if e.RatedBackPressure == nil {
			continue
		}
		s := fmt.Sprintf("For the engine (%s): layout %s, %q, puts %s of back pressure on it at rated power", e.Engine, tag(i), r.Layouts[i].Name, u.pressure.text(e.RatedBackPressure))
		if e.RatedLow != nil && e.RatedHigh != nil {
			s += " (in eight cases of ten " + u.pressure.span(e.RatedLow, e.RatedHigh) + ")"
		}
		if e.Limit == nil {
			out = append(out, s+"; no limit of its maker is stated: ask for it before anything else.")
			continue
		}
		s += fmt.Sprintf(", %s of the %s that its maker allows", shareOfLimit(e), u.pressure.text(e.Limit))
		if e.ProbabilityOverLimit != nil {
			s += "; the chance of passing that limit is " + chance(e.ProbabilityOverLimit)
		}
		out = append(out, s+".")
	}
	return out
}

// nextSteps says what to do now, in order.
func nextSteps(r *report.Page) list {
	l := list{Title: "What to do next"}
	i := firstAllowed(r)
	if i < 0 {
		l.Items = append(l.Items, item{Text: "Change the refused layouts as said above: none of these may be built as drawn."})
	}
	if box := hurtsEngine(r, max(i, 0)); i >= 0 && box != "" {
		l.Items = append(l.Items, item{Text: "Layout " + tag(i) + " leaves the engine " + box + " in its box: give it the air that the section on the box asks for, or take another layout."})
	}
	if n := openQuestions(r); n != "" {
		l.Items = append(l.Items, item{Text: "Send the questions on the quotes back (" + n + ") and order nothing before they are answered in writing."})
	}
	if i >= 0 {
		l.Items = append(l.Items, overLimits(r, i)...)
	}
	switch {
	case len(r.Listeners) == 0:
	case r.Listeners[0].Read:
		l.Items = append(l.Items, item{Text: "Measure at " + r.Listeners[0].Name + " again after the change, with the instrument of the reading before, at the same speed, load and doors: " +
			"its own error then drops out of the difference."})
	default:
		l.Items = append(l.Items, item{Text: "Measure at " + r.Listeners[0].Name + " before anything is changed, at the same speed, load and doors: " +
			"it narrows every band on this page, and without it no gain can be shown afterwards."})
	}
	return l
}

func openQuestions(r *report.Page) string {
	var parts []string
	for _, k := range offerOrder(r.Offers) {
		if n := len(r.Offers[k].Questions); n > 0 {
			parts = append(parts, fmt.Sprintf("%s: %d", r.Offers[k].Name, n))
		}
	}
	return strings.Join(parts, ", ")
}

// overLimits names for each limit that the layout misses the route to treat first.
func overLimits(r *report.Page, i int) []item {
	var out []item
	for j, l := range r.Listeners {
		h := r.Layouts[i].Heard[j]
		if l.LimitDBA == nil || h.LevelDBA == nil || *h.LevelDBA <= *l.LimitDBA {
			continue
		}
		over := *h.LevelDBA - *l.LimitDBA
		s := fmt.Sprintf("At %s layout %s stays %s over the limit of %s", l.Name, tag(i), wholeOver(over), limitDB.text(l.LimitDBA))
		if by := shares(h.Paths); len(by) > 0 && by[0].share > 0 {
			s += leadingWay(by[0])
		}
		out = append(out, item{Text: s + "."})
	}
	return out
}

// leadingWay says whether one route rules or several must be treated together.
func leadingWay(s shareOf) string {
	if s.share < 0.4 {
		return fmt.Sprintf(": no single way rules there, the largest, %q, is %s of the energy; several must be treated together", s.name, percent.text(&s.share))
	}
	return fmt.Sprintf(": the largest part (%s of the energy) comes by %q; treat that first", percent.text(&s.share), s.name)
}

func wholeOver(d float64) string {
	if d < 0.5 {
		return "less than 1\u00a0dB"
	}
	return wholeDB.text(&d)
}

// cautionCount counts the cautions by how grave they are.
func cautionCount(all []saidCaution) string {
	n := map[string]int{}
	for _, c := range all {
		n[c.Severity]++
	}
	var parts []string
	for _, s := range gravest {
		switch n[s] {
		case 0:
		case 1:
			parts = append(parts, "1 "+s)
		default:
			parts = append(parts, fmt.Sprintf("%d %ss", n[s], s))
		}
	}
	return strings.Join(parts, ", ")
}
