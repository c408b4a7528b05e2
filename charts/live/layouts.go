package live

import (
	"math"
	"strconv"
	"strings"

	"hushwake/charts/picture"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/study/advice"
	"hushwake/source/spectrum"
)

// layouts is the table of the layouts side by side.
func (v *view) layouts() string {
	if v.w == nil {
		return ""
	}
	var m markup
	class, words := v.mark()
	m.open("table", "class", "cards "+class, "data-level", "")
	m.leaf("caption", "Levels "+words+", dB(A) at the running duty")
	v.layoutHead(&m)
	m.open("tbody")
	for i := range v.w.Predictions {
		v.layoutRow(&m, i)
	}
	for _, name := range v.Figures.Waiting {
		m.open("tr")
		m.leaf("th", name, "scope", "row")
		m.leaf("td", "working…", "colspan", strconv.Itoa(len(layoutColumns)))
		m.shut("tr")
	}
	m.shut("tbody")
	m.shut("table")
	return m.String()
}

var layoutColumns = []string{"level", "against now", "engine, heat, price, fit"}

func (v *view) layoutHead(m *markup) {
	m.open("thead")
	m.open("tr")
	m.leaf("th", "Layout", "scope", "col")
	for k, c := range layoutColumns {
		if k == 0 {
			c = "at " + v.w.Boat.Listeners[v.j].Name
		}
		m.leaf("th", c, "scope", "col")
	}
	m.shut("tr")
	m.shut("thead")
}

func (v *view) layoutRow(m *markup, i int) {
	r := v.w.Row(i)
	r.Taken = r.Taken && v.judged()
	m.open("tr", "class", when(i == v.i, "on"))
	m.open("th", "scope", "row")
	m.leaf("button", r.Name, "type", "button", "class", "link", "data-op", "layout", "data-to", r.Name, "aria-pressed", strconv.FormatBool(i == v.i))
	m.rowWords(r)
	m.shut("th")
	m.cell("level", "at "+v.w.Boat.Listeners[v.j].Name, v.over(i, v.j), func() {
		m.leaf("b", v.drawn().LevelAt(i, v.j).Said())
		m.WriteString(bare(v.drawn().BandAt(i, v.j).SVG("band-"+strconv.Itoa(i+1), picture.Wide)))
	})
	m.cell("", layoutColumns[1], false, func() { m.text(v.againstNow(i)) })
	m.cell("facts", layoutColumns[2], false, func() { m.text(strings.Join(facts(r, v.u), " · ")) })
	m.shut("tr")
}

// rowWords say what a layout is: taken, on board, refused.
func (m *markup) rowWords(r report.Row) {
	if r.Taken {
		m.leaf("span", "take this", "class", "tag good")
	}
	if r.Now {
		m.leaf("span", "now", "class", "tag")
	}
	switch r.Verdict {
	case report.VerdictOver:
		m.leaf("span", "over a limit", "class", "tag bad")
	case report.VerdictMend:
		m.leaf("span", r.Verdict, "class", "tag bad")
	case report.VerdictRefused, report.VerdictAsk:
		m.leaf("span", r.Because, "class", "tag bad")
	}
}

func (m *markup) cell(class, label string, bad bool, inside func()) {
	if bad {
		class += " over"
	}
	m.open("td", "class", class, "data-label", label)
	inside()
	m.shut("td")
}

// over tells whether a layout is over the limit of a seat.
func (v *view) over(i, j int) bool {
	l, level := v.w.Boat.Listeners[j].Limit, v.drawn().LevelAt(i, j)
	return l != nil && !level.Unjudged && level.DBA > *l
}

// againstNow is the difference of a layout from the one on board, in figures and words.
func (v *view) againstNow(i int) string {
	n := v.w.Now()
	switch {
	case n < 0:
		return "–"
	case n == i:
		return "this is now"
	}
	return v.difference(i, n, v.j)
}

func (v *view) difference(i, n, j int) string {
	a, b := v.drawn().LevelAt(i, j), v.drawn().LevelAt(n, j)
	if a.Unjudged || b.Unjudged {
		return "can’t be judged yet"
	}
	shown := spectrum.Whole(a.DBA) - spectrum.Whole(b.DBA) // of the levels as they stand beside it
	return signed(shown) + " dB, " + advice.Difference(a.DBA-b.DBA)
}

// signed is a difference to the whole decibel, with a true minus.
func signed(d float64) string {
	switch t := strconv.FormatFloat(math.Abs(d), 'f', 0, 64); {
	case t == "0":
		return "±0"
	case d < 0:
		return "−" + t
	default:
		return "+" + t
	}
}

// facts are what a layout asks of engine, boat and purse; what nobody knows is left out, but for the price.
func facts(r report.Row, u form.Units) (all []string) {
	if r.PressureShare != nil {
		all = append(all, strconv.FormatFloat(100**r.PressureShare, 'f', 0, 64)+" % of the engine’s back-pressure limit")
	}
	if r.Heat != nil {
		all = append(all, u.Power(*r.Heat)+" of heat into the boat")
	}
	if r.Price == "unknown" {
		r.Price = "price unknown"
	}
	all = append(all, r.Price)
	if r.Fits != nil {
		all = append(all, map[bool]string{true: "fits", false: "does not fit"}[*r.Fits])
	}
	return all
}
