package charts

import (
	"fmt"
	"strings"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"hushwake/charts/plot"
	"hushwake/path/report/proof"
)

// recordChart sets predicted against measured, with the line on which both agree.
func recordChart(r *proof.PageRecord) section {
	s := section{ID: "chart", Title: "Predicted against measured", matter: matter{Lead: []string{
		"A mark on the line is right, above it the prediction is too loud. The upright stroke holds eight of ten by the prediction, the level one a range that was measured. " +
			"A hollow mark is a limit that was kept or exceeded, or a row that set a constant and is not counted. Rows that are differences of two levels stand in the table alone."}}}
	f := figure{ID: "record", Title: "Predicted against measured level", Wide: true, Height: 520}
	var all plot.Extent
	var said []string
	for i := range r.Rows {
		x := &r.Rows[i]
		if !drawn(x) {
			continue
		}
		m := measuredAt(x)
		all.Take(&m, x.Predicted, x.Low, x.High)
		said = append(said, fmt.Sprintf("%s: measured %s, predicted %s", x.ID, measured(x), decibel.bare(x.Predicted)))
	}
	if len(said) == 0 {
		f.Empty = "Every row is a difference of two levels: there is no chart, the table holds them."
		s.Figures = []figure{f}
		return s
	}
	f.Alt = "Predicted against measured level. " + strings.Join(said, "; ") + "."
	span := all.Level(1)
	f.Plot = recordPlot(r, span)
	for k, g := range groupsDrawn(r) {
		f.Key = append(f.Key, plot.LookOf(k).Point(g))
	}
	s.Figures = []figure{f}
	return s
}

// drawn tells whether the row is a level, and no difference of two.
func drawn(x *proof.MeasuredRow) bool { return x.Unit != "dB" }

// at is the reading, the middle of a range, or the limit.
func measuredAt(x *proof.MeasuredRow) float64 {
	low, high := orElse(x.LowMeasured, orElse(x.HighMeasured, 0)), orElse(x.HighMeasured, orElse(x.LowMeasured, 0))
	return plot.Rounded((low+high)/2, 2)
}

func groupsDrawn(r *proof.PageRecord) []string {
	var all []string
	seen := map[string]bool{}
	for i := range r.Rows {
		if g := r.Rows[i].Group; drawn(&r.Rows[i]) && !seen[g] {
			seen[g] = true
			all = append(all, g)
		}
	}
	return all
}

func recordPlot(r *proof.PageRecord, span plot.Scale) *plot.Plot {
	p := plot.New("dB", plot.ValueX("measured, dB", span), plot.ValueY("predicted, dB", span))
	p.Grid(14, 24, 30, 24)
	p.Add(echarts.SingleSeries{Name: "both agree", Type: "line", Symbol: "none", Data: []opts.LineData{{Value: []float64{span.Low, span.Low}}, {Value: []float64{span.High, span.High}}},
		LineStyle: &opts.LineStyle{Color: plot.Muted, Width: 1.5, Type: "dashed"}, ItemStyle: &opts.ItemStyle{Color: plot.Muted}})
	for k, g := range groupsDrawn(r) {
		for _, hollow := range []bool{false, true} {
			strokes, points := recordSeries(r, g, plot.LookOf(k), hollow)
			p.Add(strokes)
			p.Add(points)
		}
	}
	return p
}

func tip(x *proof.MeasuredRow) string {
	return fmt.Sprintf("%s\nmeasured %s, predicted %s (%s) %s", x.ID, measured(x), decibel.bare(x.Predicted), decibel.span(x.Low, x.High), x.Unit)
}

// recordSeries are the strokes and marks of a group, the filled or the hollow ones.
func recordSeries(r *proof.PageRecord, group string, k plot.Look, hollow bool) (strokes, points echarts.SingleSeries) {
	style := &opts.ItemStyle{Color: k.Paint(), BorderColor: k.Paint(), BorderWidth: 1.5}
	if hollow {
		style.Color = plot.Paper
	}
	var lines []opts.CustomData
	var marks []opts.ScatterData
	for i := range r.Rows {
		x := &r.Rows[i]
		if x.Group != group || !drawn(x) || hollow != (x.SetsConstant != "" || x.LowMeasured == nil || x.HighMeasured == nil) {
			continue
		}
		at := measuredAt(x)
		lines = append(lines, opts.CustomData{Name: tip(x), ItemStyle: &opts.ItemStyle{Color: k.Paint()},
			Value: []any{at, plot.Rounded(*x.Predicted, 2), orElse(x.LowMeasured, at), orElse(x.HighMeasured, at), plot.Rounded(*x.Low, 2), plot.Rounded(*x.High, 2)}})
		marks = append(marks, opts.ScatterData{Name: tip(x), Value: []float64{at, plot.Rounded(*x.Predicted, 2)}, Symbol: k.Symbol(), SymbolSize: 12})
	}
	return echarts.SingleSeries{Name: group, Type: "custom", RenderItem: "cross", Data: lines, Encode: &opts.Encode{X: []int{0, 2, 3}, Y: []int{1, 4, 5}}},
		echarts.SingleSeries{Name: group, Type: "scatter", Data: marks, ItemStyle: style}
}
