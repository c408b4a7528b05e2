package charts

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"hushwake/path/report"
)

const decibelNote = "A difference of 3 dB is barely heard; 10 dB sounds about half as loud (or twice). " +
	"Bars hold eight cases of ten, from the 10th to the 90th percentile; the mark is the middle, with as many above as below."

// levelsSection shows the level at each listener by layout, with bands and limits.
func levelsSection(r *report.Page) section {
	s := section{ID: "levels", Title: "How loud at each place", Lead: []string{decibelNote}}
	if len(r.Listeners) == 0 {
		s.Empty = "The boat file names no listener, so there is no level to show."
		return s
	}
	span := levelSpan(r)
	for j := range r.Listeners {
		s.Figures = append(s.Figures, levelFigure(r, j, span))
	}
	return s
}

// levelSpan is one scale for all the listeners, so that charts compare by eye.
func levelSpan(r *report.Page) scale {
	var e extent
	for j, l := range r.Listeners {
		e.take(l.LimitDBA)
		for _, y := range r.Layouts {
			e.take(y.Heard[j].LevelDBA, y.Heard[j].LowDBA, y.Heard[j].HighDBA)
		}
	}
	return e.level(1)
}

func levelFigure(r *report.Page, j int, span scale) figure {
	l := r.Listeners[j]
	f := figure{ID: fmt.Sprintf("level-%d", j+1), Title: "Level at " + l.Name, Note: listenerNote(l) + quietestMeans(r, j), Table: levelTable(r, j)}
	var rows, values []string
	var said []string
	known := false
	for i, y := range r.Layouts {
		h := y.Heard[j]
		rows, values = append(rows, titled(r, i)), append(values, whole(h.LevelDBA))
		known = known || h.LevelDBA != nil
		said = append(said, titled(r, i)+": "+decibelA.text(h.LevelDBA)+", "+decibelA.span(h.LowDBA, h.HighDBA))
	}
	if !known {
		f.Empty = "No level could be predicted at " + l.Name + ", so there is no chart."
		return f
	}
	f.Alt = "Predicted level at " + l.Name + " by layout. " + strings.Join(said, "; ") + limitSaid(l)
	f.Height = 76 + 46*len(rows)
	p := newPlot("rows", "dB(A)", valueX("dB(A) at "+shortened(l.Name, 30), span), rowsY(rows))
	p.ExtendYAxis(rightY(values))
	p.grid(26, 8, 28, 10)
	p.add(levelBars(r, j))
	p.add(levelMarks(r, j, l))
	f.Plot = p
	return f
}

// levelBars draws low to high of each layout; the script's "bar" draws [row, low, high].
func levelBars(r *report.Page, j int) echarts.SingleSeries {
	var data []opts.CustomData
	for i, y := range r.Layouts {
		h := y.Heard[j]
		if h.LowDBA == nil || h.HighDBA == nil {
			continue
		}
		data = append(data, opts.CustomData{Name: levelTip(r, i, j), Value: []any{i, rounded(*h.LowDBA, 2), rounded(*h.HighDBA, 2)},
			ItemStyle: &opts.ItemStyle{Color: lookOf(i).paint()}})
	}
	return echarts.SingleSeries{Name: "band", Type: "custom", RenderItem: "bar", Data: data,
		Encode: &opts.Encode{X: []int{1, 2}, Y: 0}}
}

func levelMarks(r *report.Page, j int, l report.PageListener) echarts.SingleSeries {
	var data []opts.ScatterData
	for i, y := range r.Layouts {
		if v := y.Heard[j].LevelDBA; v != nil {
			data = append(data, opts.ScatterData{Name: levelTip(r, i, j), Value: []any{rounded(*v, 2), i},
				Symbol: lookOf(i).symbol(), SymbolSize: 13})
		}
	}
	s := echarts.SingleSeries{Name: "level", Type: "scatter", Data: data, ItemStyle: &opts.ItemStyle{Color: ink}}
	if l.LimitDBA != nil {
		s.MarkLines = limitLine(opts.MarkLineNameXAxisItem{XAxis: rounded(*l.LimitDBA, 2)}, "limit "+limitDB.bare(l.LimitDBA), "start")
	}
	return s
}

// limitLine is a dashed line in the alarm colour with its name in words.
func limitLine(at any, text, position string) *opts.MarkLines {
	return &opts.MarkLines{Data: []any{at}, MarkLineStyle: opts.MarkLineStyle{Symbol: []string{"none", "none"},
		LineStyle: &opts.LineStyle{Color: alarm, Type: "dashed", Width: 2},
		Label:     &opts.Label{Show: opts.Bool(true), Formatter: text, Color: alarm, FontSize: 12, FontWeight: "bold", Position: position}}}
}

func levelTip(r *report.Page, i, j int) string {
	h := r.Layouts[i].Heard[j]
	return titled(r, i) + "\n" + decibelA.text(h.LevelDBA) + ", " + decibelA.span(h.LowDBA, h.HighDBA)
}

// whole prints a level to the whole decibel, which is as fine as a prediction bears.
func whole(v *float64) string { return wholeDB.bare(v) }

func limitSaid(l report.PageListener) string {
	if l.LimitDBA == nil {
		return "."
	}
	return ". The limit here is " + limitDB.text(l.LimitDBA) + "."
}

func listenerNote(l report.PageListener) string {
	var parts []string
	if l.Where != "" {
		parts = append(parts, l.Where)
	}
	if l.Hours != nil {
		parts = append(parts, fmt.Sprintf("%g h a day", rounded(*l.Hours, 2)))
	}
	if l.LimitDBA != nil {
		parts = append(parts, "limit "+limitDB.text(l.LimitDBA))
	} else {
		parts = append(parts, "no limit was stated")
	}
	return capital(strings.Join(parts, "; "))
}

// capital begins a sentence.
func capital(s string) string {
	first, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[n:]
}

// quietestMeans says what the quietest layout that is not refused means for the ear.
func quietestMeans(r *report.Page, j int) string {
	best := -1
	for i, y := range r.Layouts {
		if v := y.Heard[j].LevelDBA; !y.Refused && v != nil && (best < 0 || *v < *r.Layouts[best].Heard[j].LevelDBA) {
			best = i
		}
	}
	if best < 0 || r.Layouts[best].Heard[j].Means == "" {
		return ""
	}
	return ". With layout " + tag(best) + ", the quietest allowed: " + r.Layouts[best].Heard[j].Means
}

func levelTable(r *report.Page, j int) table {
	t := table{Caption: "Levels at " + r.Listeners[j].Name, Head: []string{"Layout", "dB(A)", "10th to 90th percentile", "dB(C)",
		"noise rating", "chance to be the quietest", "chance over the limit", "against layout 1"}}
	first := r.Layouts[0].Heard[j].LevelDBA
	for i, y := range r.Layouts {
		h := y.Heard[j]
		t.Rows = append(t.Rows, []cell{words(titled(r, i)), num(decibelA.bare(h.LevelDBA)), num(decibelA.span(h.LowDBA, h.HighDBA)),
			num(decibel.bare(h.LevelDBC)), num(wholeDB.bare(h.NR)), num(quietest(y, h)), num(chance(h.ProbabilityOverLimit)),
			words(against(first, h.LevelDBA, i))})
	}
	t.Notes = meanings(r, j)
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

// meanings says what the levels mean, layouts of one meaning together.
func meanings(r *report.Page, j int) []string {
	in := map[string][]int{}
	var order []string
	all := sharedEnd(r, j)
	for i, y := range r.Layouts {
		m := strings.TrimSpace(strings.TrimSuffix(y.Heard[j].Means, all))
		if m == "" {
			continue
		}
		if in[m] == nil {
			order = append(order, m)
		}
		in[m] = append(in[m], i)
	}
	var out []string
	for _, m := range order {
		out = append(out, layoutsSaid(in[m])+": "+m)
	}
	if all != "" {
		out = append(out, "With every layout: "+all)
	}
	return out
}

// sharedEnd is the last sentence where it is said of every layout, of several, at listener j.
func sharedEnd(r *report.Page, j int) string {
	end := ""
	for i, y := range r.Layouts {
		m := y.Heard[j].Means
		k := strings.LastIndex(m, ". ")
		if k < 0 || i > 0 && m[k+2:] != end {
			return ""
		}
		end = m[k+2:]
	}
	if len(r.Layouts) < 2 {
		return ""
	}
	return end
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

func against(first, v *float64, i int) string {
	if i == 0 || first == nil || v == nil {
		return "–"
	}
	d := *v - *first
	return signed(d) + ", " + heardAs(d)
}

func signed(d float64) string {
	if d > 0 {
		return "+" + decibel.text(&d)
	}
	return decibel.text(&d)
}

// shortened cuts a long name for an axis; the whole name stands in the table.
func shortened(s string, n int) string {
	runes := []rune(s)
	if len(runes) <= n {
		return s
	}
	return strings.TrimSpace(string(runes[:n-1])) + "…"
}
