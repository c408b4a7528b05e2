package charts

import (
	"fmt"
	"math"
	"strings"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"hushwake/charts/gloss"
	"hushwake/charts/plot"
	"hushwake/path/report"
	"hushwake/path/report/form"
)

// sweepSection shows level and back pressure over engine speed, with booms marked.
func sweepSection(r *report.Page, u unitSet) section {
	booms := boomList(r)
	s := section{ID: "speed", Title: "Over engine speed: no boom", Terms: gloss.Of("order", "boom"), matter: matter{Lead: []string{
		"A smooth rise is the engine working harder. A peak is a boom; a pin with the number of its order marks it. " + besides(r)}}}
	if n := len(booms.Items); n > 0 {
		s.Title, s.Lists = "Over engine speed: "+form.Counted(n, "boom"), []list{booms}
	}
	if r.OverLoad {
		s.Title, s.Lists, s.Terms = "Over load", nil, gloss.Of("order")
		s.Lead = []string{"A set keeps its speed, and its orders their frequencies, so that nothing can boom: what grows with load is the exhaust and the gas in it."}
	}
	if len(r.Sweeps) == 0 {
		s.Title, s.Empty, s.Lists = "Over engine speed", "Engine speed was not swept for this page; the sweep command does it.", nil
		return s
	}
	for j := range r.Listeners {
		s.Figures = append(s.Figures, sweepFigure(r, u, j))
	}
	if r.OverLoad && len(s.Figures) > 0 {
		s.Title = s.Figures[0].Title
	}
	s.Figures = append(s.Figures, sweepPressure(r, u))
	s.behind(2, "The other places, and back pressure")
	var notes []string
	for _, x := range r.Sweeps {
		notes = append(notes, x.Notes...)
	}
	if notes = form.Unique(notes); len(notes) > 0 {
		s.Folds = append(s.Folds, fold{Label: "How readings and stated figures reach other duties", matter: matter{Lists: []list{{Items: itemsOf(notes)}}}})
	}
	return s
}

// besides says what is not looked for here.
func besides(r *report.Page) string {
	for _, s := range r.Sweeps {
		if s.Plain {
			return "Today's line is drawn from few speeds: its booms, and the other layouts, are told by the sweep command."
		}
	}
	return "The sweep command shows every layout."
}

// over is what sweeps go over, in words: the axis, and short.
func over(r *report.Page) (axis, short string) {
	if r.OverLoad {
		return "load, % of rated", "load"
	}
	return "engine speed, rpm", "engine speed"
}

// inTitle is it in a title.
func inTitle(over string) string { return strings.TrimPrefix(over, "engine ") }

// along is where a point lies on that axis.
func along(r *report.Page, q report.PageSpeed) float64 {
	if r.OverLoad {
		return q.LoadPercent
	}
	return q.SpeedRPM
}

// sweepName is the layout, with the engine where several were swept.
func sweepName(r *report.Page, s report.PageSweep) string {
	engines := map[string]bool{}
	for _, x := range r.Sweeps {
		if x.Engine != "" {
			engines[x.Engine] = true
		}
	}
	if len(engines) > 1 && s.Engine != "" {
		return titled(r, s.Layout) + ", " + s.Engine
	}
	return titled(r, s.Layout)
}

func sweepFigure(r *report.Page, u unitSet, j int) figure {
	name := r.Listeners[j].Name
	axis, over := over(r)
	f := figure{ID: fmt.Sprintf("speed-%d", j+1), Title: swing(r, "At "+name, func(q report.PageSpeed) *float64 { return q.LevelDBA[j] }, wholeDBA), Height: 330, Table: sweepTable(r, u, j)}
	var x, y plot.Extent
	for _, s := range r.Sweeps {
		for i := range s.Points {
			at := along(r, s.Points[i])
			x.Take(&at)
			y.Take(s.Points[i].LevelDBA[j])
		}
	}
	if !y.Any {
		f.Empty = "No levels at " + name + " over " + inTitle(over) + " were computed, so there is no chart."
		return f
	}
	y.Take(r.Listeners[j].LimitDBA)
	sx, sy := x.Round(6), y.Level(1)
	if y.High > sy.High-0.15*(sy.High-sy.Low) { // room for a pin
		sy.High += sy.Step
	}
	pins, ends := &plot.Pinboard{X: sx, Y: sy}, endNames(r, sy, func(q report.PageSpeed) *float64 { return q.LevelDBA[j] })
	p := plot.New("dB(A)", plot.ValueX(axis, sx), plot.ValueY("dB(A) at "+shortened(name, 24), sy))
	p.Grid(24, 30, 28, 30)
	p.ByAxis()
	var said []string
	for n, s := range r.Sweeps {
		line := sweepLine(r, s, ends[n], func(q report.PageSpeed) *float64 { return q.LevelDBA[j] })
		if n == 0 && r.Listeners[j].LimitDBA != nil {
			line.MarkLines = plot.LimitLine(opts.MarkLineNameYAxisItem{YAxis: *r.Listeners[j].LimitDBA}, "limit "+limitDB.bare(r.Listeners[j].LimitDBA), clearEnd(r, j, sx, sy))
		}
		line.MarkPoints = boomPoints(s, j, pins)
		p.Add(line)
		f.Key = append(f.Key, sweepMark(r, s))
		said = append(said, sweepName(r, s)+": "+inShort(r, s, j))
	}
	f.Alt = "Level at " + name + " over " + over + ". " + strings.Join(said, "; ") + "."
	f.Plot = p
	return f
}

// swing is how far something moves with the layout that is told of, for a title.
func swing(r *report.Page, what string, of func(report.PageSpeed) *float64, in quantity) string {
	var e plot.Extent
	for _, q := range r.Sweeps[0].Points {
		e.Take(of(q))
	}
	_, short := over(r)
	if !e.Any {
		return what + " over " + inTitle(short)
	}
	span := in.bare(&e.Low) + " to " + in.text(&e.High) + " over "
	if in.bare(&e.Low) == in.bare(&e.High) {
		span = in.text(&e.High) + " at every "
	}
	return what + " with layout " + tag(r, r.Sweeps[0].Layout) + ": " + span + inTitle(short)
}

// inShort is a curve in words: its booms where they were looked for, else its levels.
func inShort(r *report.Page, s report.PageSweep, j int) string {
	if !s.Plain && !r.OverLoad {
		return boomCount(s, j)
	}
	var y plot.Extent
	for _, q := range s.Points {
		y.Take(q.LevelDBA[j])
	}
	if !y.Any {
		return "not computed"
	}
	return fmt.Sprintf("%.0f to %.0f dB(A)", y.Low, y.High)
}

// clearEnd is the end of the limit's line whose name fewer points of the curves and pins of booms meet, the left one where none does.
func clearEnd(r *report.Page, j int, x, y plot.Scale) string {
	met, limit := [2]int{}, *r.Listeners[j].LimitDBA
	meet := func(at float64) {
		if share := (at - x.Low) / (x.High - x.Low); share < 0.3 {
			met[0]++
		} else if share > 0.7 {
			met[1]++
		}
	}
	for _, s := range r.Sweeps {
		for _, q := range s.Points {
			if v := q.LevelDBA[j]; v != nil && *v > limit-0.02*(y.High-y.Low) && *v < limit+0.09*(y.High-y.Low) { // as high as the name
				meet(along(r, q))
			}
		}
		for _, b := range s.Booms {
			if b.Listener == j {
				meet(b.SpeedRPM)
			}
		}
	}
	if met[1] < met[0] {
		return "insideEndTop"
	}
	return "insideStartTop"
}

func sweepLine(r *report.Page, s report.PageSweep, end string, value func(report.PageSpeed) *float64) echarts.SingleSeries {
	k := lookIn(r, s.Layout)
	var data [][2]any
	for _, q := range s.Points {
		v := value(q)
		if v != nil {
			short := plot.Rounded(*v, 2)
			v = &short
		}
		data = append(data, [2]any{plot.Rounded(along(r, q), 2), plot.OrGap(v)})
	}
	return echarts.SingleSeries{Id: end, Name: tag(r, s.Layout), Type: "line", Data: data, Symbol: "none",
		ItemStyle: &opts.ItemStyle{Color: k.Paint()}, LineStyle: &opts.LineStyle{Color: k.Paint(), Width: k.Width, Type: k.Line()}}
}

// sweepMark is a line without points.
func sweepMark(r *report.Page, s report.PageSweep) plot.Mark {
	m := lookIn(r, s.Layout).Mark(sweepName(r, s))
	m.Shape = ""
	return m
}

// boomPoints marks the booms heard at listener j on the curve, with the order's number.
func boomPoints(s report.PageSweep, j int, pins *plot.Pinboard) *opts.MarkPoints {
	var data []any
	for _, b := range s.Booms {
		y := levelAt(s, b.SpeedRPM, j)
		if b.Listener != j || y == nil || !pins.Free(b.SpeedRPM, *y) {
			continue
		}
		data = append(data, opts.MarkPointNameCoordItem{Name: "boom: " + b.Text, Coordinate: []any{plot.Rounded(b.SpeedRPM, 2), plot.Rounded(*y, 2)},
			Value: fmt.Sprintf("%g", plot.Rounded(b.Order, 2))})
	}
	if data == nil {
		return nil
	}
	return &opts.MarkPoints{Data: data, MarkPointStyle: opts.MarkPointStyle{SymbolSize: 36,
		Label: &opts.Label{Show: opts.Bool(true), Color: plot.Paper, FontSize: 11, FontWeight: "bold"}}}
}

// levelAt interpolates between the speeds swept.
func levelAt(s report.PageSweep, rpm float64, j int) *float64 {
	for i := range s.Points {
		if s.Points[i].SpeedRPM == rpm {
			return s.Points[i].LevelDBA[j]
		}
		if i == 0 {
			continue
		}
		a, b := s.Points[i-1], s.Points[i]
		low, high := math.Min(a.SpeedRPM, b.SpeedRPM), math.Max(a.SpeedRPM, b.SpeedRPM)
		if rpm > low && rpm < high && a.LevelDBA[j] != nil && b.LevelDBA[j] != nil {
			y := *a.LevelDBA[j] + (*b.LevelDBA[j]-*a.LevelDBA[j])*(rpm-a.SpeedRPM)/(b.SpeedRPM-a.SpeedRPM)
			return &y
		}
	}
	return nil
}

func boomCount(s report.PageSweep, j int) string {
	n := 0
	for _, b := range s.Booms {
		if b.Listener == j {
			n++
		}
	}
	switch n {
	case 0:
		return "no boom"
	case 1:
		return "one boom"
	}
	return fmt.Sprintf("%d booms", n)
}

func sweepPressure(r *report.Page, u unitSet) figure {
	axis, over := over(r)
	f := figure{ID: "speed-pressure", Title: swing(r, "Back pressure", func(q report.PageSpeed) *float64 { return q.BackPressureKPa }, u.pressure), Height: 330, Table: sweepPressureTable(r, u)}
	var x, y plot.Extent
	var limit *float64
	for _, s := range r.Sweeps {
		for i := range s.Points {
			at := along(r, s.Points[i])
			x.Take(&at)
			y.Take(u.pressure.shown(s.Points[i].BackPressureKPa))
		}
		if l := lowestLimit(r, s.Engine); l != nil && (limit == nil || *l < *limit) {
			limit = l
		}
	}
	if !y.Any {
		f.Empty = "No back pressures over " + inTitle(over) + " were computed, so there is no chart."
		return f
	}
	y.Take(u.pressure.shown(limit))
	p := plot.New(u.pressure.unit, plot.ValueX(axis, x.Round(6)), plot.ValueY("back pressure, "+u.pressure.unit, y.FromZero()))
	ends := endNames(r, y.FromZero(), func(q report.PageSpeed) *float64 { return u.pressure.shown(q.BackPressureKPa) })
	p.Grid(24, 30, 28, 30)
	p.ByAxis()
	for n, s := range r.Sweeps {
		line := sweepLine(r, s, ends[n], func(q report.PageSpeed) *float64 { return u.pressure.shown(q.BackPressureKPa) })
		if n == 0 && limit != nil {
			line.MarkLines = plot.LimitLine(opts.MarkLineNameYAxisItem{YAxis: *u.pressure.shown(limit)}, "limit at rated "+u.pressure.text(limit), "insideStartTop")
		}
		p.Add(line)
		f.Key = append(f.Key, sweepMark(r, s))
	}
	f.Alt = "Back pressure over " + over + " by layout; the limit at rated is " + u.pressure.text(limit) + "."
	f.Plot = p
	return f
}

// lowestLimit is that of the engine, or of any where the sweep names none.
func lowestLimit(r *report.Page, engine string) *float64 {
	if engine != "" {
		return limitOf(r, engine)
	}
	var limit *float64
	for _, e := range enginesOf(r) {
		if l := limitOf(r, e); l != nil && (limit == nil || *l < *limit) {
			limit = l
		}
	}
	return limit
}

// boomList tells the booms in a line each, those that are told in the same words once.
func boomList(r *report.Page) list {
	l := list{Title: "Booms"}
	seen := map[string]bool{}
	for _, s := range r.Sweeps {
		for _, b := range s.Booms {
			text := sweepName(r, s) + ": " + strings.TrimRight(b.Text, ". ") + "."
			if !seen[text] {
				seen[text] = true
				l.Items = append(l.Items, item{Kind: "boom", Text: text})
			}
		}
	}
	return l
}
