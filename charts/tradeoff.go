package charts

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"hushwake/charts/gloss"
	"hushwake/charts/plot"
	"hushwake/path/report"
	"hushwake/path/report/form"
)

// tradeoffSection sets level against rated back pressure.
func tradeoffSection(r *report.Page, u unitSet) section {
	s := section{ID: "tradeoff", Title: "Quiet against back pressure", Terms: gloss.Of("back pressure", "front"), matter: matter{Lead: []string{
		"Lower is quieter. A filled mark is on the trade-off front: no other layout is at least as good in level, back pressure, price and length together. A number in brackets is a refused layout."}}}
	engines := enginesOf(r)
	if len(engines) == 0 || len(r.Listeners) == 0 {
		s.Empty = "There is no trade-off to draw: it needs an engine with an exhaust line and a listener."
		return s
	}
	s.Title += ": " + onFront(r, engines[0])
	if points := tradeoffPoints(r, u, engines[0], r.Main); len(points) == 1 || !alike(u, points) {
		s.Lead[0] += " Further left is easier on the engine; a layout over its maker's limit is refused, however quiet it is. A stepped line joins the layouts that none beats in level and back pressure alone."
	}
	for k := range engines {
		for j := range r.Listeners {
			s.Figures = append(s.Figures, tradeoffFigure(r, u, engines, k, j))
		}
	}
	s.behind(2, "More trade-off charts")
	return s
}

// onFront counts the filled marks of the chart of the answer's place.
func onFront(r *report.Page, engine string) string {
	n := 0
	for _, p := range tradeoffPoints(r, unitsOf(false), engine, r.Main) {
		if r.Layouts[p.layout].Heard[r.Main].OnFront {
			n++
		}
	}
	if n == 0 {
		return "at " + r.Listeners[r.Main].Name + " no layout that could be taken"
	}
	return "at " + r.Listeners[r.Main].Name + " " + form.Counted(n, "layout") + " that none beats in level, back pressure, price and length"
}

// enginesOf lists the engines that have a line in any layout, in the order met.
func enginesOf(r *report.Page) (names []string) {
	for _, l := range r.Layouts {
		for _, e := range l.Exhausts {
			if !slices.Contains(names, e.Engine) {
				names = append(names, e.Engine)
			}
		}
	}
	return names
}

func exhaustOf(l report.PageLayout, engine string) *report.Exhaust {
	for i := range l.Exhausts {
		if l.Exhausts[i].Engine == engine {
			return &l.Exhausts[i]
		}
	}
	return nil
}

// tradeoffPoint is one layout in the chart, in shown units.
type tradeoffPoint struct {
	layout      int
	x, y        float64
	left, right float64 // percentiles of x
}

func tradeoffPoints(r *report.Page, u unitSet, engine string, j int) []tradeoffPoint {
	var points []tradeoffPoint
	for i, l := range r.Layouts {
		e, v := exhaustOf(l, engine), l.Heard[j].LevelDBA
		if e == nil || e.RatedBackPressure == nil || v == nil {
			continue
		}
		x := *u.pressure.shown(e.RatedBackPressure)
		points = append(points, tradeoffPoint{i, x, plot.Rounded(*v, 2), orElse(u.pressure.shown(e.RatedLow), x), orElse(u.pressure.shown(e.RatedHigh), x)})
	}
	return points
}

// alike tells whether all points print one back pressure.
func alike(u unitSet, points []tradeoffPoint) bool {
	printed := func(p tradeoffPoint) string { return grouped(p.x, u.pressure.decimals) }
	return !slices.ContainsFunc(points, func(p tradeoffPoint) bool { return printed(p) != printed(points[0]) })
}

func tradeoffFigure(r *report.Page, u unitSet, engines []string, k, j int) figure {
	engine := engines[k]
	name := r.Listeners[j].Name
	f := figure{ID: fmt.Sprintf("tradeoff-%d-%d", k+1, j+1), Title: "Level at " + name + " against back pressure",
		Height: 340, Table: tradeoffTable(r, u, engine, j)}
	points := tradeoffPoints(r, u, engine, j)
	f.Title = ends(r, u, name, points, f.Title) + surer(r, points, j)
	if len(engines) > 1 {
		f.Title += " (" + engine + ")"
	}
	if len(points) == 0 {
		f.Empty = "No layout has both a level at " + name + " and a rated back pressure, so there is no chart."
		return f
	}
	var xs, ys plot.Extent
	var said []string
	limit := limitOf(r, engine)
	xs.Take(u.pressure.shown(limit))
	for _, p := range points {
		h, e := r.Layouts[p.layout].Heard[j], exhaustOf(r.Layouts[p.layout], engine)
		xs.Take(&p.x, &p.right)
		ys.Take(&p.y, h.LowDBA, h.HighDBA)
		f.Key = append(f.Key, tradeoffMark(r, p.layout, j))
		said = append(said, fmt.Sprintf("%s: %s at %s", titled(r, p.layout), decibelA.text(h.LevelDBA), u.pressure.text(e.RatedBackPressure)))
	}
	f.Alt = "Level at " + name + " against rated back pressure of " + engine + ". " + strings.Join(said, "; ") + "."
	y := plot.ValueY("dB(A) at "+shortened(name, 24), ys.Level(1))
	if len(points) > 1 && alike(u, points) {
		f.Plot = sideBySide(r, u, engine, j, points, y)
		return f
	}
	p := plot.New("", plot.ValueX("rated back pressure, "+u.pressure.unit, xs.FromZero()), y)
	p.Grid(30, 50, 28, 30)
	p.Add(errorBars(r, u, engine, j, points))
	p.Add(frontLine(r, points))
	for n, q := range points {
		s := tradeoffSeries(r, u, engine, j, q)
		if n == 0 && limit != nil {
			s.MarkLines = plot.LimitLine(opts.MarkLineNameXAxisItem{XAxis: *u.pressure.shown(limit)}, "limit "+u.pressure.text(limit), "end")
		}
		p.Add(s)
	}
	f.Plot = p
	return f
}

// sideBySide puts layouts of one back pressure side by side, where on an axis of pressure they would lie on one another.
func sideBySide(r *report.Page, u unitSet, engine string, j int, points []tradeoffPoint, y opts.YAxis) *plot.Plot {
	all := exhaustOf(r.Layouts[points[0].layout], engine)
	p := plot.New("", plot.NamesX("layout, each with "+u.pressure.text(all.RatedBackPressure)+" at rated"), y)
	p.Grid(30, 50, 28, 30)
	var names []string
	for k := range points {
		q := &points[k]
		q.x, q.left, q.right = float64(k), float64(k), float64(k)
		s := tradeoffSeries(r, u, engine, j, *q)
		names = append(names, s.Name)
		s.Id, s.Label = "", nil // its name stands below
		p.Add(s)
	}
	p.XData(names)
	p.Add(errorBars(r, u, engine, j, points))
	return p
}

// ends says which layout is quietest and which is easiest on the engine, of those that are not refused.
func ends(r *report.Page, u unitSet, name string, points []tradeoffPoint, none string) string {
	front := unbeaten(r, points)
	if len(front) == 0 {
		return none
	}
	quietest := fmt.Sprintf("At %s layout %s is quietest", name, tag(r, front[len(front)-1].layout))
	switch {
	case alike(u, points):
		return quietest + ", and the back pressure of all is the same"
	case len(front) == 1, alike(u, []tradeoffPoint{front[0], front[len(front)-1]}):
		return quietest + " and easiest on the engine"
	}
	return quietest + ", " + tag(r, front[0].layout) + " easiest on the engine"
}

func tradeoffMark(r *report.Page, i, j int) plot.Mark {
	m := lookIn(r, i).Point(titled(r, i))
	m.Hollow = !r.Layouts[i].Heard[j].OnFront
	if !m.Hollow {
		m.Text += ", on the front"
	}
	return m
}

// limitOf is the lowest limit stated for the engine in any layout.
func limitOf(r *report.Page, engine string) *float64 {
	var limit *float64
	for _, l := range r.Layouts {
		if e := exhaustOf(l, engine); e != nil && e.Limit != nil && (limit == nil || *e.Limit < *limit) {
			limit = e.Limit
		}
	}
	return limit
}

// errorBars draws the percentiles both ways; the script's "cross" takes [x, y, left, right, low, high].
func errorBars(r *report.Page, u unitSet, engine string, j int, points []tradeoffPoint) echarts.SingleSeries {
	var data []opts.CustomData
	for _, p := range points {
		h := r.Layouts[p.layout].Heard[j]
		low, high := orElse(h.LowDBA, p.y), orElse(h.HighDBA, p.y)
		data = append(data, opts.CustomData{Name: tradeoffTip(r, u, engine, j, p.layout), Value: []any{p.x, p.y, p.left, p.right, plot.Rounded(low, 2), plot.Rounded(high, 2)},
			ItemStyle: &opts.ItemStyle{Color: lookIn(r, p.layout).Paint()}})
	}
	return echarts.SingleSeries{Name: "percentiles", Type: "custom", RenderItem: "cross", Data: data,
		Encode: &opts.Encode{X: []int{0, 2, 3}, Y: []int{1, 4, 5}}}
}

func orElse(v *float64, other float64) float64 {
	if v == nil {
		return other
	}
	return *v
}

// frontLine steps through the layouts, not refused, that no other beats in both measures.
func frontLine(r *report.Page, points []tradeoffPoint) echarts.SingleSeries {
	var data []opts.LineData
	for _, p := range unbeaten(r, points) {
		data = append(data, opts.LineData{Value: []float64{p.x, p.y}})
	}
	return echarts.SingleSeries{Name: "front", Type: "line", Step: "end", Data: data, Symbol: "none",
		LineStyle: &opts.LineStyle{Color: plot.Muted, Width: 2, Type: "dashed"}, ItemStyle: &opts.ItemStyle{Color: plot.Muted}}
}

func unbeaten(r *report.Page, points []tradeoffPoint) []tradeoffPoint {
	sorted := slices.Clone(points)
	slices.SortStableFunc(sorted, func(a, b tradeoffPoint) int { return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y)) })
	var front []tradeoffPoint
	for _, p := range sorted {
		if r.Layouts[p.layout].Refused || len(front) > 0 && p.y >= front[len(front)-1].y {
			continue
		}
		front = append(front, p)
	}
	return front
}

func tradeoffSeries(r *report.Page, u unitSet, engine string, j int, p tradeoffPoint) echarts.SingleSeries {
	k := lookIn(r, p.layout)
	text := tag(r, p.layout)
	if r.Layouts[p.layout].Refused {
		text = "(" + text + ")"
	}
	style := &opts.ItemStyle{Color: k.Paint(), BorderColor: k.Paint(), BorderWidth: 1.5}
	if !r.Layouts[p.layout].Heard[j].OnFront {
		style.Color = plot.Paper
	}
	return echarts.SingleSeries{Id: "point " + tag(r, p.layout), Name: text, Type: "scatter", Symbol: k.Symbol(), SymbolSize: 15, ItemStyle: style,
		Label: &opts.Label{Show: opts.Bool(true), Formatter: "{a}", Position: "right", Color: plot.Ink, FontSize: 13, FontWeight: "bold"},
		Data:  []opts.ScatterData{{Name: tradeoffTip(r, u, engine, j, p.layout), Value: []float64{p.x, p.y}}}}
}

func tradeoffTip(r *report.Page, u unitSet, engine string, j, i int) string {
	e, h := exhaustOf(r.Layouts[i], engine), r.Layouts[i].Heard[j]
	return titled(r, i) + "\n" + decibelA.text(h.LevelDBA) + " at " + u.pressure.text(e.RatedBackPressure)
}

func tradeoffTable(r *report.Page, u unitSet, engine string, j int) table {
	t := table{Caption: "Level at " + r.Listeners[j].Name + " against back pressure of " + engine, Head: []string{"Layout", "dB(A)",
		"rated back pressure, " + u.pressure.unit, "10th to 90th percentile", "running, " + u.pressure.unit, "limit, " + u.pressure.unit, "chance over the limit", "on the front"}}
	for i, l := range r.Layouts {
		e := exhaustOf(l, engine)
		if e == nil {
			continue
		}
		t.Rows = append(t.Rows, []cell{words(titled(r, i)), num(decibelA.bare(l.Heard[j].LevelDBA)), num(u.pressure.bare(e.RatedBackPressure)),
			num(u.pressure.span(e.RatedLow, e.RatedHigh)), num(u.pressure.bare(e.BackPressure)), num(u.pressure.bare(e.Limit)),
			num(chance(e.ProbabilityOverLimit)), words(yes(l.Heard[j].OnFront))})
	}
	return t
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// surer names the layout that has the greater chance of keeping the limit of a place than the quietest by the median, as printed.
func surer(r *report.Page, points []tradeoffPoint, j int) string {
	front := unbeaten(r, points)
	if len(front) == 0 {
		return ""
	}
	over := func(p tradeoffPoint) *float64 { return r.Layouts[p.layout].Heard[j].ProbabilityOverLimit }
	best := front[len(front)-1]
	least := best
	for _, p := range points {
		if v := over(p); !r.Layouts[p.layout].Refused && v != nil && over(least) != nil && *v < *over(least) {
			least = p
		}
	}
	if chance(over(least)) == chance(over(best)) {
		return ""
	}
	return fmt.Sprintf("; %s likelier keeps the limit (chance to be over it %s, with %s %s)", tag(r, least.layout), chance(over(least)), tag(r, best.layout), chance(over(best)))
}
