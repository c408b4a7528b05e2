package plot

import (
	"encoding/json"
	"fmt"
	"math"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// Plot is one chart in the making: options of go-echarts, and how the page's script shows them.
type Plot struct {
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
	Ink   = "var:ink"
	Muted = "var:muted"
	rule  = "var:rule"
	Paper = "var:paper"
	alarm = "var:alarm"
)

// New is an empty chart; the unit is appended to values in pop-ups.
func New(unit string, x opts.XAxis, y opts.YAxis) *Plot {
	p := &Plot{Line: echarts.NewLine(), unit: unit}
	p.SetGlobalOptions(
		echarts.WithAnimation(false),
		echarts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}),
		echarts.WithTooltipOpts(opts.Tooltip{Show: opts.Bool(true), Trigger: "item"}),
		echarts.WithXAxisOpts(x),
		echarts.WithYAxisOpts(y),
	)
	p.Grid(12, 18, 46, 12)
	return p
}

// Grid sets the space round the plotting area, in pixels, axis labels not counted.
func (p *Plot) Grid(top, right, bottom, left int) {
	px := func(n int) string { return fmt.Sprint(n) }
	p.GridList = []opts.Grid{{Top: px(top), Right: px(right), Bottom: px(bottom), Left: px(left), ContainLabel: opts.Bool(true)}}
}

// ByAxis makes the pop-up show all the series at one place of the x axis.
func (p *Plot) ByAxis() { p.Tooltip.Trigger = "axis" }

// Add puts a series in.
func (p *Plot) Add(s echarts.SingleSeries) {
	s.Animation = opts.Bool(false)
	p.MultiSeries = append(p.MultiSeries, s)
}

// XData gives the x axis its categories.
func (p *Plot) XData(names []string) { p.SetXAxis(names) }

// Marshal gives the options; a number that JSON cannot hold is an error here, never a blank chart.
func (p *Plot) Marshal(id string) ([]byte, error) {
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
	return &opts.AxisLabel{Show: opts.Bool(true), Color: Muted, FontSize: 12, HideOverlap: opts.Bool(true)}
}

func axisStroke(show bool) *opts.AxisLine {
	return &opts.AxisLine{Show: opts.Bool(show), OnZero: opts.Bool(false), LineStyle: &opts.LineStyle{Color: Muted, Width: 1}}
}

func ticks(show bool) *opts.AxisTick { return &opts.AxisTick{Show: opts.Bool(show)} }

// ValueX is a horizontal scale of numbers with its name under the middle.
func ValueX(name string, s Scale) opts.XAxis {
	return opts.XAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: 28, Min: s.Low, Max: s.High,
		MinInterval: s.Step, MaxInterval: s.Step, AxisLabel: axisText(), AxisLine: axisStroke(true), AxisTick: ticks(true), SplitLine: faint()}
}

// ValueY is a vertical scale of numbers with its name along the axis.
func ValueY(name string, s Scale) opts.YAxis {
	return opts.YAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: 34, Min: s.Low, Max: s.High,
		MinInterval: s.Step, MaxInterval: s.Step, AxisLabel: axisText(), AxisLine: axisStroke(false), SplitLine: faint()}
}

// BandsX is the row of octave bands, each with its name.
func BandsX() opts.XAxis {
	x := NamesX("octave band, Hz")
	x.AxisLabel.HideOverlap = nil
	return x
}

// NamesX is a row of names, all of them where there is room.
func NamesX(name string) opts.XAxis {
	label := axisText()
	label.Interval = "0"
	return opts.XAxis{Type: "category", Name: name, NameLocation: "middle", NameGap: 28,
		AxisLabel: label, AxisLine: axisStroke(true), AxisTick: ticks(false), SplitLine: noLines()}
}

// Extent collects the span of values for a scale.
type Extent struct {
	Low, High float64
	Any       bool
}

// Take widens the span to hold values; those that do not exist leave it as it is.
func (e *Extent) Take(values ...*float64) {
	for _, v := range values {
		if v == nil {
			continue
		}
		if !e.Any {
			e.Low, e.High, e.Any = *v, *v, true
			continue
		}
		e.Low, e.High = math.Min(e.Low, *v), math.Max(e.High, *v)
	}
}

// Scale is an axis from low to high with a tick at every step.
type Scale struct{ Low, High, Step float64 }

// Steps widens the span to whole multiples of step, with at least margin at both ends. Both are in the unit of the
// axis.
func (e Extent) Steps(step, margin float64) Scale {
	if !e.Any {
		return Scale{0, step, step}
	}
	s := Scale{math.Floor((e.Low-margin)/step) * step, math.Ceil((e.High+margin)/step) * step, step}
	if s.High <= s.Low {
		s.High = s.Low + step
	}
	s.Low, s.High = Rounded(s.Low, 9), Rounded(s.High, 9)
	return s
}

// Level is a scale of decibels: steps of 10, 5 where the span is short, 20 where it is long.
func (e Extent) Level(margin float64) Scale {
	if e.High-e.Low < 25 {
		return e.Steps(5, margin)
	}
	if e.High-e.Low > 80 {
		return e.Steps(20, margin)
	}
	return e.Steps(10, margin)
}

// Round is a scale of about n round steps that holds the span.
func (e Extent) Round(n float64) Scale {
	if !e.Any || e.High == e.Low {
		return e.Steps(roundStep(math.Max(math.Abs(e.High)/10, 1e-6)), 0)
	}
	return e.Steps(math.Max(roundStep((e.High-e.Low)/n), 1e-6), 0)
}

// FromZero is a scale that holds 0 and the span.
func (e Extent) FromZero() Scale {
	e.Take(new(float64))
	if e.High-e.Low < 1e-6 {
		return Scale{math.Min(e.Low, 0), 1, 0.5}
	}
	return e.Round(5)
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

// LimitLine is a dashed line in the alarm colour with its name in words.
func LimitLine(at any, text, position string) *opts.MarkLines {
	return &opts.MarkLines{Data: []any{at}, MarkLineStyle: opts.MarkLineStyle{Symbol: []string{"none", "none"},
		LineStyle: &opts.LineStyle{Color: alarm, Type: "dashed", Width: 2},
		Label:     &opts.Label{Show: opts.Bool(true), Formatter: text, Color: alarm, FontSize: 12, FontWeight: "bold", Position: position}}}
}

// OrGap is a value, or a gap in its line where it does not exist.
func OrGap(v *float64) any {
	if v == nil {
		return "-"
	}
	return *v
}

// Rounded keeps so many decimals, and a number too large for them as it is.
func Rounded(x float64, decimals int) float64 {
	p := math.Pow(10, float64(decimals))
	if y := math.Round(x*p) / p; y != 0 && !math.IsInf(y, 0) {
		return y
	}
	if math.Abs(x)*p < 1 {
		return 0
	}
	return x
}
