package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/study/readings"
)

// Brief is a comparison on one screen: what to take, every layout at every place, what is dangerous, what to do next.
type Brief struct{ *Comparison }

// What fits on a screen of 45 lines.
const (
	briefLayouts = 8  // two lines each
	briefPlaces  = 4  // beside the first one
	briefRisks   = 8  // lines, and two more for each layout fewer
	briefName    = 40 // letters of the name of a layout
	briefSeat    = 16 // and of a place
	briefLine    = 66 // letters that a line of the narrowest page has at least
)

// BriefWarned is how many warnings stand over it on the same screen, each in a line, with one more that counts the others.
const BriefWarned = 1

// Text is, with the warnings over it, at most 45 lines on a page of 72 columns or more.
func (w Brief) Text(u form.Units) *form.Text {
	t := &form.Text{}
	shown := w.shown()
	if w.Boat.Text != "" {
		t.Brief(1, "", "%s", form.Name(w.Boat.Text))
		t.Blank()
	}
	const lines = 3
	a := w.advise()
	whole := strings.Join(a.Sentences[:a.Firm], " ")
	t.Blocks = append(t.Blocks, form.Block{Words: a.Text(), Most: lines, Whole: whole})
	t.Blank()
	t.Brief(2, "", "%s", w.caption(u))
	t.Table(w.table(shown))
	w.sayLeft(t, len(shown))
	t.Blank()
	risks := briefRisks + 2*(briefLayouts-len(shown)) - min(len(w.Warnings(u)), BriefWarned+1) - max(0, 1+utf8.RuneCountInString(whole)/briefLine-lines)
	if s := w.earChanges(w.take()); s != "" {
		t.Brief(1, fmt.Sprintf("%-8s ", "ear"), "%s", form.Sentence(s))
		risks--
	}
	w.sayRisks(t, risks, u)
	w.sayNext(t)
	t.Brief(1, "", "An estimate, not an approval: 'hushwake verify' shows its proof.")
	return t
}

// Warnings are those of the file and of its readings before those of the models.
func (w Brief) Warnings(u form.Units) []string {
	all := w.Comparison.Warnings(u)
	first := u.LocalAll(append(slices.Clone(w.Boat.Warnings), w.remarks()...))
	return form.Unique(append(first, all...))
}

// take is the layout of the advice, or the first of the table where there is none.
func (w Brief) take() int {
	i := slices.Index(w.layoutNames(), w.advise().Layout)
	if i < 0 {
		i = w.Order(w.Listener)[0]
	}
	return i
}

// shown are the layouts of the table in its order, with that of the advice and that of today among them.
func (w Brief) shown() []int {
	all := w.Order(w.Listener)
	if len(all) <= briefLayouts {
		return all
	}
	keep := map[int]bool{w.take(): true}
	if i := slices.Index(w.layoutNames(), w.today(0).Layout); i >= 0 {
		keep[i] = true
	}
	for _, i := range all {
		if len(keep) < briefLayouts {
			keep[i] = true
		}
	}
	return slices.DeleteFunc(all, func(i int) bool { return !keep[i] })
}

func (w Brief) caption(u form.Units) string {
	text := fmt.Sprintf("dB(A), quietest at %s first, what can't be taken last", form.Name(w.Seat()))
	if w.limited() {
		text += "; ! is over a limit"
		if slices.ContainsFunc(w.asks, func(a asked) bool { return len(a.questions) > 0 }) {
			text += ", >! all its span, ?! may be"
		}
	}
	text += fmt.Sprintf("; bar and band: eight cases of ten; with %s.", w.dutyText(u))
	if n := w.Known.Used(); n > 0 {
		text += fmt.Sprintf(" Readings that count: %d.", n)
	}
	return text
}

// table has two lines for each layout: what it is, and its levels.
func (w Brief) table(shown []int) *form.Table {
	bar := w.bar()
	t := form.NewTable(bar.Head())
	seats := w.seatsShown()
	for _, j := range seats {
		l := w.Boat.Listeners[j]
		head := cut(l.Name, briefSeat)
		if l.Limit != nil {
			head += fmt.Sprintf("\nmax %.0f", *l.Limit)
		}
		t.Column(head, false)
		if j == w.Listener {
			t.Column("band", false)
		}
	}
	for _, i := range shown {
		t.Add(w.heading(i))
		first := w.Spread.Layouts[i].Listeners[w.Listener]
		row := []string{bar.Draw(first.Low, first.Level, first.High, w.Boat.Listeners[w.Listener].Limit), w.cell(i, w.Listener), form.BandText(first.Low, first.High)}
		for _, j := range seats[1:] {
			row = append(row, w.cell(i, j))
		}
		t.Add(row...)
	}
	return t
}

// seatsShown are the first place of the table and those behind it that it has room for.
func (w Brief) seatsShown() []int {
	out := []int{w.Listener}
	for j := range w.Boat.Listeners {
		if j != w.Listener && len(out) <= briefPlaces {
			out = append(out, j)
		}
	}
	return out
}

// cell is a level, marked where it is over the limit of its place.
func (w Brief) cell(layout, seat int) string {
	h := w.Spread.Layouts[layout].Listeners[seat]
	text := form.Decibel(h.Level)
	if over, maybe := w.beyond(layout, seat); over || maybe {
		if limit := form.Decibel(*w.Boat.Listeners[seat].Limit); over && (math.IsNaN(h.Level) || text == limit) {
			text = ">" + limit
		}
		text += "!"
	}
	return text
}

// heading is the place of a layout in the file, its name, its verdict, price and share of the back-pressure limit.
func (w Brief) heading(i int) string {
	p := &w.Predictions[i]
	var words []string
	if p.Layout.Name == w.advise().Layout {
		words = append(words, "TAKE THIS")
		if w.advise().Open {
			words[0] = "FIRST OF THE WHOLE ONES"
		}
		if w.advise().Mend {
			words[0] += ", ITS BOX MENDED"
		}
	}
	if p.Layout.Name == w.today(0).Layout {
		words = append(words, "today")
	}
	words = append(words, w.verdicts(i)...)
	refusal := len(words) - 1
	if p.Layout.Price == nil {
		words = append(words, "price unknown")
	} else {
		words = append(words, priceFrom(w.Boat, p.Layout.Price, p.Layout.Unpriced))
	}
	if e := w.worstExhaust(i); e >= 0 && p.Exhausts[e].Limit != nil && !w.Asked(i) {
		share := 100 * w.Spread.Layouts[i].Exhausts[e].Rated / *p.Exhausts[e].Limit
		if readings.Unbelieved(p) {
			words[refusal] += fmt.Sprintf(" (%.0f %% as read)", share)
		} else {
			words = append(words, fmt.Sprintf("%.0f %% of the back-pressure limit", share))
		}
	}
	return fmt.Sprintf("%s  %s: %s", w.place(p.Layout.Name), cut(p.Layout.Name, briefName), strings.Join(words, ", "))
}

// cut is the beginning of a name.
func cut(name string, letters int) string {
	r := []rune(form.Name(name))
	if len(r) > letters {
		r = append(r[:letters], '…')
	}
	return string(r)
}

// place is where a layout stands in the file, from 1: flags take it for the name.
func (w Brief) place(layout string) string {
	for i, l := range w.Boat.Layouts {
		if l.Name == layout {
			return strconv.Itoa(i + 1)
		}
	}
	return "?"
}

// verdicts leave out what is as it should be, and levels over a limit, which have their mark.
func (w Brief) verdicts(i int) []string {
	if w.Verdict(i) == VerdictOK && len(boxVerdicts(&w.Predictions[i])) == 0 {
		if !w.limited() {
			return nil // of levels nothing was asked
		}
		return []string{"ok"}
	}
	words := strings.Split(w.verdict(i), "; ")
	return slices.DeleteFunc(words, func(s string) bool {
		return s == pressureKept || s == "-" || strings.HasPrefix(s, tooLoud)
	})
}

// sayLeft counts what the table has no room for.
func (w Brief) sayLeft(t *form.Text, shown int) {
	var left []string
	if n := len(w.Predictions) - shown; n > 0 {
		left = append(left, fmt.Sprintf("%d more layouts", n))
	}
	if n := len(w.Boat.Listeners) - len(w.seatsShown()); n > 0 {
		left = append(left, fmt.Sprintf("%d more places", n))
	}
	if len(left) > 0 {
		t.Line("and %s: --full shows all", strings.Join(left, " and "))
	}
}

// of names layouts by their places; nothing where all are concerned.
func (w Brief) of(layouts []string) string {
	switch {
	case len(layouts) >= len(w.Predictions):
		return ""
	case len(layouts) == 1:
		return "layout " + w.place(layouts[0]) + ": "
	}
	return "layouts " + form.Runs(form.Each(layouts, w.place)) + ": "
}

// sayNext tells what to do next, in commands that can be pasted.
func (w Brief) sayNext(t *form.Text) {
	file, keep := w.Boat.File, ""
	if file == boatfile.StandardInput {
		file, keep = "boat.yaml", " (keep what came by standard input in boat.yaml)"
	}
	t.Line("\nNext%s:", keep)
	next := func(what string, args ...string) {
		t.Command(fmt.Sprintf("  %-9s ", what), append([]string{"hushwake"}, args...)...)
	}
	for _, p := range w.Predictions {
		if p.Layout.Slots != nil {
			next("slots:", "choose", file, "--layout", p.Layout.Name)
		}
	}
	take := w.place(w.Predictions[w.take()].Layout.Name)
	next("why:", "explain", file, "--layout", take, "--listener", w.Seat())
	if w.Known.Used() > 0 {
		next("readings:", "calibrate", file)
	} else {
		next("measure:", "survey", file)
	}
	if slices.ContainsFunc(w.Predictions[w.take()].Exhausts, boxed) {
		next("box:", "enclosure", file, "--layout", take)
	} else {
		next("speeds:", "sweep", file, "--layout", take)
	}
	next("pictures:", "compare", file, "--report", "page.html")
}

func boxed(r path.ExhaustResult) bool { return r.Box != nil }
