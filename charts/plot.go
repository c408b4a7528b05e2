package charts

import (
	"encoding/json"
	"fmt"
	"math"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// plot is one chart in the making: options of go-echarts, and how the page's script shows them.
type plot struct {
	*echarts.Line
	unit string // appended to values in pop-ups
}

// drawing is what the script finds in the page for one chart.
type drawing struct {
	Unit   string         `json:"unit"`
	Option map[string]any `json:"option"`
}

// Colours are written as "var:NAME"; the script puts the page's custom property --NAME there,
// so that light, dark and printed pages each have their own.
const (
	ink   = "var:ink"
	muted = "var:muted"
	rule  = "var:rule"
	paper = "var:paper"
	alarm = "var:alarm"
)

func newPlot(unit string, x opts.XAxis, y opts.YAxis) *plot {
	p := &plot{Line: echarts.NewLine(), unit: unit}
	p.SetGlobalOptions(
		echarts.WithAnimation(false),
		echarts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}),
		echarts.WithTooltipOpts(opts.Tooltip{Show: opts.Bool(true), Trigger: "item"}),
		echarts.WithXAxisOpts(x),
		echarts.WithYAxisOpts(y),
	)
	p.grid(12, 18, 46, 12)
	return p
}

// grid sets the space round the plotting area, in pixels, axis labels not counted.
func (p *plot) grid(top, right, bottom, left int) {
	px := func(n int) string { return fmt.Sprint(n) }
	p.GridList = []opts.Grid{{Top: px(top), Right: px(right), Bottom: px(bottom), Left: px(left), ContainLabel: opts.Bool(true)}}
}

// byAxis makes the pop-up show all the series at one place of the x axis.
func (p *plot) byAxis() { p.Tooltip.Trigger = "axis" }

func (p *plot) add(s echarts.SingleSeries) {
	s.Animation = opts.Bool(false)
	p.MultiSeries = append(p.MultiSeries, s)
}

// xData gives the x axis its categories.
func (p *plot) xData(names []string) { p.SetXAxis(names) }

// json marshals the options; a number that JSON cannot hold is an error here, never a blank chart.
func (p *plot) json(id string) ([]byte, error) {
	p.Validate()
	b, err := json.Marshal(drawing{Unit: p.unit, Option: p.JSON()})
	if err != nil {
		return nil, fmt.Errorf("charts: chart %q cannot be drawn: %w", id, err)
	}
	return b, nil
}

func faint() *opts.SplitLine {
	return &opts.SplitLine{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: rule, Width: 1}}
}

func noLines() *opts.SplitLine { return &opts.SplitLine{Show: opts.Bool(false)} }

func axisText() *opts.AxisLabel {
	return &opts.AxisLabel{Show: opts.Bool(true), Color: muted, FontSize: 12, HideOverlap: opts.Bool(true)}
}

func axisStroke(show bool) *opts.AxisLine {
	return &opts.AxisLine{Show: opts.Bool(show), OnZero: opts.Bool(false), LineStyle: &opts.LineStyle{Color: muted, Width: 1}}
}

func ticks(show bool) *opts.AxisTick { return &opts.AxisTick{Show: opts.Bool(show)} }

// valueX is a horizontal scale of numbers with its name under the middle.
func valueX(name string, s scale) opts.XAxis {
	return opts.XAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: 28, Min: s.low, Max: s.high,
		MinInterval: s.step, MaxInterval: s.step, AxisLabel: axisText(), AxisLine: axisStroke(true), AxisTick: ticks(true), SplitLine: faint()}
}

// valueY is a vertical scale of numbers with its name along the axis.
func valueY(name string, s scale) opts.YAxis {
	return opts.YAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: 34, Min: s.low, Max: s.high,
		MinInterval: s.step, MaxInterval: s.step, AxisLabel: axisText(), AxisLine: axisStroke(false), SplitLine: faint()}
}

// bandsX is the row of octave bands.
func bandsX() opts.XAxis {
	label := axisText()
	label.Interval = "0"
	label.HideOverlap = nil
	return opts.XAxis{Type: "category", Name: "octave band, Hz", NameLocation: "middle", NameGap: 28,
		AxisLabel: label, AxisLine: axisStroke(true), AxisTick: ticks(false), SplitLine: noLines()}
}

// extent collects the span of values for a scale.
type extent struct {
	low, high float64
	any       bool
}

func (e *extent) take(values ...*float64) {
	for _, v := range values {
		if v == nil {
			continue
		}
		if !e.any {
			e.low, e.high, e.any = *v, *v, true
			continue
		}
		e.low, e.high = math.Min(e.low, *v), math.Max(e.high, *v)
	}
}

// scale is an axis from low to high with a tick at every step.
type scale struct{ low, high, step float64 }

// steps widens the span to whole multiples of step, with at least margin at both ends.
func (e extent) steps(step, margin float64) scale {
	if !e.any {
		return scale{0, step, step}
	}
	s := scale{math.Floor((e.low-margin)/step) * step, math.Ceil((e.high+margin)/step) * step, step}
	if s.high <= s.low {
		s.high = s.low + step
	}
	s.low, s.high = rounded(s.low, 9), rounded(s.high, 9)
	return s
}

// level is a scale of decibels: steps of 10, 5 where the span is short, 20 where it is long.
func (e extent) level(margin float64) scale {
	if e.high-e.low < 25 {
		return e.steps(5, margin)
	}
	if e.high-e.low > 80 {
		return e.steps(20, margin)
	}
	return e.steps(10, margin)
}

// round is a scale of about n round steps that holds the span.
func (e extent) round(n float64) scale {
	if !e.any || e.high == e.low {
		return e.steps(roundStep(math.Max(math.Abs(e.high)/10, 1e-6)), 0)
	}
	return e.steps(math.Max(roundStep((e.high-e.low)/n), 1e-6), 0)
}

// fromZero is a scale that holds 0 and the span.
func (e extent) fromZero() scale {
	e.take(new(float64))
	if e.high-e.low < 1e-6 {
		return scale{math.Min(e.low, 0), 1, 0.5}
	}
	return e.round(5)
}

// roundStep is the smallest 1, 2, 2.5 or 5 times a power of ten that is at least x.
func roundStep(x float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 2.5, 5} {
		if m*p >= x*(1-1e-9) {
			return m * p
		}
	}
	return 10 * p
}

// limitLine is a dashed line in the alarm colour with its name in words.
func limitLine(at any, text, position string) *opts.MarkLines {
	return &opts.MarkLines{Data: []any{at}, MarkLineStyle: opts.MarkLineStyle{Symbol: []string{"none", "none"},
		LineStyle: &opts.LineStyle{Color: alarm, Type: "dashed", Width: 2},
		Label:     &opts.Label{Show: opts.Bool(true), Formatter: text, Color: alarm, FontSize: 12, FontWeight: "bold", Position: position}}}
}

func orGap(v *float64) any {
	if v == nil {
		return "-"
	}
	return *v
}
