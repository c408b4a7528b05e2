package charts

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/charts/picture"
	"hushwake/charts/style"
	"hushwake/path/report"
	"hushwake/silencer/safety"
)

// openSlots names the layouts that leave slots open.
func openSlots(r *report.Page) (names []string) {
	for _, y := range r.Layouts {
		if y.Slots != "" {
			names = append(names, "“"+y.Name+"”")
		}
	}
	return names
}

// adviceOf is the advice as every answer words it, its first sentence by itself, and what it asks of the engine.
func adviceOf(r *report.Page, u unitSet) (headline string, more []string) {
	whole := func(text string) string { return strings.ReplaceAll(text, " dB", "\u00a0dB") }
	headline = whole(r.Advice[0])
	if len(r.Advice) > 1 {
		more = append(more, whole(strings.Join(r.Advice[1:], " ")))
	}
	if r.Chosen < 0 {
		return headline, more
	}
	if e := worstExhaust(r.Layouts[r.Chosen]); e.RatedBackPressure != nil {
		more = append(more, "The engine bears "+u.pressure.text(e.RatedBackPressure)+" of back pressure"+ofLimit(e)+".")
	}
	return headline, more
}

func ofLimit(e report.Exhaust) string {
	if e.Limit == nil {
		return ", with no limit stated"
	}
	return ", " + shareOfLimit(e) + " of what its maker allows"
}

// overAt names the places at which a layout is over the limit, with the excess.
func overAt(r *report.Page, i int) string {
	var out []string
	for j, l := range r.Listeners {
		if d := excess(r, i, j); d > 0 {
			out = append(out, l.Name+" (by "+wholeOver(d)+")")
		}
	}
	return picture.Listed(out)
}

// excess is how far a layout is over the limit at a place, dB; nothing where it keeps it or none is stated.
func excess(r *report.Page, i, j int) float64 {
	v, l := r.Layouts[i].Heard[j].LevelDBA, r.Listeners[j].LimitDBA
	if v == nil || l == nil {
		return 0
	}
	return math.Max(0, *v-*l)
}

func signed(d float64) string {
	if d > 0 && wholeDB.bare(&d) != "0" {
		return "+" + wholeDB.text(&d)
	}
	return wholeDB.text(&d)
}

// nowAndThen sets today's level at each place beside that of the chosen layout and the limit.
func nowAndThen(r *report.Page, d *drawer) table {
	t := table{Caption: "Now, proposed and the limit, dB(A)" + axisSaid(r), Head: []string{"Place", "now", "proposed", "limit", "band of the proposed"}}
	if len(r.Listeners) == 0 {
		return table{}
	}
	i := max(r.Chosen, 0)
	if r.Chosen < 0 { // nothing is proposed: the layout that is told of stands alone
		t.Caption = "Layout " + tag(r, i) + ", not advised, and the limit, dB(A)" + axisSaid(r)
		t.Head = []string{"Place", "layout " + tag(r, i), "limit", "its band"}
	}
	for j, l := range r.Listeners {
		now := num("–")
		if r.Today >= 0 {
			now = levelCell(r, r.Today, j)
		}
		then := levelCell(r, i, j)
		band := num(whole(r.Layouts[i].Heard[j].LowDBA) + " to " + whole(r.Layouts[i].Heard[j].HighDBA))
		band.Picture, band.Class = d.band(r, i, j, fmt.Sprintf("then-%d", j+1)), "chosen"
		row := []cell{words(l.Name), now, then, num(limitDB.bare(l.LimitDBA)), band}
		if r.Chosen < 0 {
			row = slices.Delete(row, 1, 2)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// axisSaid tells from where to where the small bars of a table are drawn.
func axisSaid(r *report.Page) string {
	if len(r.Pictures) == 0 || len(r.Listeners) == 0 {
		return ""
	}
	return fmt.Sprintf(", bars from %.0f to %.0f", r.Pictures[0].Bands[0].From, r.Pictures[0].Bands[0].To)
}

// levelCell is a level to the whole decibel, marked where it is over the limit of its place.
func levelCell(r *report.Page, i, j int) cell {
	h, limit := r.Layouts[i].Heard[j], r.Listeners[j].LimitDBA
	v := h.LevelDBA
	c := num(whole(v))
	c.Class = "level"
	if v == nil && h.LowDBA != nil && h.HighDBA != nil { // all that its sheet allows
		if c.Text = whole(h.LowDBA) + " to " + whole(h.HighDBA); limit != nil && *h.LowDBA <= *limit && *h.HighDBA > *limit {
			c.Text += " over at worst"
		}
		v = h.LowDBA
	}
	if v != nil && limit != nil && *v > *limit {
		if c.Text == whole(limit) {
			c.Text = decibelA.bare(v)
		}
		c.Text, c.Class = c.Text+style.Over, "bad level"
	}
	return c
}

// dangersShown is how many stand with the answer.
const dangersShown = 3

// dangers are the gravest cautions of the layout that is told of, in a line each; carbon monoxide first and always.
func dangers(r *report.Page) []item {
	gas := item{Kind: "danger", Text: "Exhaust gas kills without smell: a carbon monoxide alarm in every sleeping space."}
	var out []item
	for _, c := range r.Own {
		switch {
		case c.Code == safety.Monoxide:
			gas.Text = firstPart(c.Text, ":") + ": " + strings.TrimRight(lower(c.Action), ". ") + "."
		case c.Severity == "danger" || c.Severity == "warning":
			out = append(out, item{Kind: c.Severity, Text: firstPart(c.Text, ". ") + ". " + c.Action})
		}
	}
	return append([]item{gas}, out[:min(len(out), dangersShown-1)]...)
}

// firstPart is a text up to where it is cut.
func firstPart(s, at string) string {
	first, _, _ := strings.Cut(s, at)
	return strings.TrimRight(first, ". ")
}

// engineCost says what the layout that is told of asks of each engine.
func engineCost(r *report.Page, u unitSet) []string {
	if r.Chosen < 0 {
		return nil
	}
	var out []string
	for _, e := range r.Layouts[r.Chosen].Exhausts {
		if e.RatedBackPressure == nil {
			continue
		}
		s := fmt.Sprintf("For the engine (%s): layout %s, %q, puts %s of back pressure on it at rated power", e.Engine, tag(r, r.Chosen), r.Layouts[r.Chosen].Name, u.pressure.text(e.RatedBackPressure))
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

func wholeOver(d float64) string {
	if d < 0.5 {
		return "less than 1\u00a0dB"
	}
	return wholeDB.text(&d)
}
