package charts

import (
	"fmt"
	"math"
	"slices"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"hushwake/charts/gloss"
	"hushwake/charts/plot"
	"hushwake/path/report"
)

// lossSection shows the narrowband loss of every line, with the engine's orders marked.
func lossSection(r *report.Page) section {
	s := section{ID: "loss", Title: lossTitle(r), Terms: gloss.Of("insertion loss", "transmission loss", "order"), matter: matter{Lead: []string{
		"Insertion loss is what the silencing gains over a plain pipe of the same run; transmission loss is the line's own property. " +
			"The upright lines are the engine's strongest orders at the speed predicted: that is where the sound energy sits, so a dip on an order costs far more than a dip between two. Below zero the line makes it louder there. " +
			"The curves are of sound inside the pipes alone; above some 50 to 60 dB (common practice, no source) the walls and the gas itself rule, which the levels on this page count as routes of their own. Peaks over 80 dB leave the chart."}}}
	scale := lossScale(r)
	order := append(r.InDetail(), plot.UpTo(len(r.Layouts))...)
	done := map[[2]int]bool{}
	for _, i := range order {
		for k := range r.Layouts[i].Exhausts {
			key := [2]int{sharers(r, i, k)[0], k}
			if done[key] {
				continue
			}
			done[key] = true
			s.Figures = append(s.Figures, lossFigure(r, i, k, scale))
		}
	}
	if len(s.Figures) == 0 {
		s.Empty = "No layout has an exhaust line, so there is no loss to draw."
	}
	s.behind(2, "Loss of the other layouts")
	return s
}

// lossShown is the top of the charts, dB: more is never built, see the lead.
const lossShown = 80

// lossTitle states what the first line that is told of takes off.
func lossTitle(r *report.Page) string {
	for _, i := range r.InDetail() {
		for _, e := range r.Layouts[i].Exhausts {
			if e.InsertionLossDBA != nil {
				return "By frequency: the line with layout " + tag(r, i) + " takes " + wholeDBA.text(e.InsertionLossDBA) + " off its outlet"
			}
		}
	}
	return "What each exhaust line takes off, by frequency"
}

// takesOff is what a line takes off what leaves its outlet, for a title: the way to a place begins there, with readings and spectrum of its own.
func takesOff(y report.PageLayout, e report.Exhaust) string {
	switch {
	case y.Verdict == report.VerdictAsk:
		return ": drawn without what has to be asked about first"
	case e.InsertionLossDBA == nil:
		return ""
	}
	return ": " + wholeDBA.text(e.InsertionLossDBA) + " off its outlet"
}

// scales are shared by all the lines, so that charts compare by eye.
type scales struct{ x, y plot.Scale }

func lossScale(r *report.Page) scales {
	var x, y plot.Extent
	for _, l := range r.Layouts {
		for _, e := range l.Exhausts {
			for i := range e.Loss.FrequencyHz {
				x.Take(&e.Loss.FrequencyHz[i])
			}
			y.Take(e.Loss.TransmissionDB...)
			y.Take(e.Loss.InsertionDB...)
		}
	}
	s := scales{x: plot.Scale{Low: x.Low, High: x.High}, y: y.Steps(10, 0)}
	s.y.Low, s.y.High = math.Max(math.Min(s.y.Low, 0), -40), math.Min(s.y.High, lossShown)
	return s
}

func lossFigure(r *report.Page, i, k int, sc scales) figure {
	e := r.Layouts[i].Exhausts[k]
	f := figure{ID: fmt.Sprintf("loss-%d-%d", i+1, k+1), Title: lineName(r, i, k) + takesOff(r.Layouts[i], e), Height: 330, Table: lossTable(r, i, k)}
	var known plot.Extent
	known.Take(e.Loss.TransmissionDB...)
	known.Take(e.Loss.InsertionDB...)
	if !known.Any || len(e.Loss.FrequencyHz) < 2 {
		f.Empty = "The narrowband loss of this line was not computed, so there is no chart."
		return f
	}
	f.Alt = fmt.Sprintf("Loss of the line of %s from %s to %s. Insertion loss over all: %s.", lineName(r, i, k),
		hertz.text(&e.Loss.FrequencyHz[0]), hertz.text(&e.Loss.FrequencyHz[len(e.Loss.FrequencyHz)-1]), decibelA.text(e.InsertionLossDBA))
	x := plot.ValueX("Hz", sc.x)
	x.Type = "log"
	p := plot.New("dB", x, plot.ValueY("loss, dB", sc.y))
	p.Grid(26, 18, 28, 30)
	p.ByAxis()
	f.Key = []plot.Mark{{Class: "k-c1", Dash: plot.SvgDash[0], Text: "insertion loss"}, {Class: "k-c2", Dash: plot.SvgDash[1], Text: "transmission loss"},
		{Class: "k-muted", Dash: plot.SvgDash[0], Text: ordersSaid(e.Loss.Orders, sc.x)}}
	insertion := lossSeries("insertion loss", "var:c1", "solid", 2, e.Loss.FrequencyHz, e.Loss.InsertionDB)
	insertion.MarkLines = orderLines(e.Loss.Orders, sc.x)
	p.Add(lossSeries("transmission loss", "var:c2", "dashed", 1.5, e.Loss.FrequencyHz, e.Loss.TransmissionDB))
	if t := e.Loss.TrustedToHz; t != nil && *t < sc.x.High {
		insertion.MarkAreas = doubtful(*t, sc.x)
		f.Note = "Shaded: above " + wholeHertz.text(t) + " the sound no longer travels as plane waves alone, and the curves are not to be trusted."
	}
	p.Add(insertion)
	f.Plot = p
	return f
}

// doubtful shades the frequencies above the trusted ones.
func doubtful(from float64, x plot.Scale) *opts.MarkAreas {
	pair := []opts.MarkAreaData{{XAxis: math.Max(from, x.Low)}, {XAxis: x.High}}
	return &opts.MarkAreas{Data: []any{pair}, MarkAreaStyle: opts.MarkAreaStyle{
		ItemStyle: &opts.ItemStyle{Color: plot.Muted, Opacity: opts.Float(0.14)}}}
}

func lossSeries(name, colour, dash string, width float32, f []float64, loss []*float64) echarts.SingleSeries {
	var data [][2]any
	for _, i := range plot.Thinned(f, loss) {
		var y any = "-"
		if loss[i] != nil {
			y = plot.Rounded(*loss[i], 1)
		}
		data = append(data, [2]any{plot.Rounded(f[i], 1), y})
	}
	return echarts.SingleSeries{Name: name, Type: "line", Data: data, Symbol: "none", ShowSymbol: opts.Bool(false),
		LineStyle: &opts.LineStyle{Color: colour, Width: width, Type: dash}, ItemStyle: &opts.ItemStyle{Color: colour}}
}

// orderLines marks the orders inside the scale, the firing frequency thicker and by name.
func orderLines(orders []report.PageOrder, x plot.Scale) *opts.MarkLines {
	m := &opts.MarkLines{MarkLineStyle: opts.MarkLineStyle{Symbol: []string{"none", "none"},
		Label:     &opts.Label{Show: opts.Bool(true), Formatter: "{b}", Position: "end", Color: plot.Muted, FontSize: 11},
		LineStyle: &opts.LineStyle{Color: plot.Muted, Type: "solid", Width: 1}}}
	for _, o := range orders {
		if !inside(o, x) {
			continue
		}
		if o.Firing {
			m.Data = append(m.Data, firingLine{opts.MarkLineNameXAxisItem{Name: "firing", XAxis: plot.Rounded(o.FrequencyHz, 2)},
				&opts.LineStyle{Color: plot.Ink, Type: "solid", Width: 2}})
			continue
		}
		m.Data = append(m.Data, opts.MarkLineNameXAxisItem{Name: " ", XAxis: plot.Rounded(o.FrequencyHz, 2)})
	}
	if m.Data == nil {
		return nil
	}
	return m
}

func inside(o report.PageOrder, x plot.Scale) bool {
	return o.FrequencyHz >= x.Low && o.FrequencyHz <= x.High
}

// ordersSaid explains the upright lines; the firing frequency only where it is one of them.
func ordersSaid(orders []report.PageOrder, x plot.Scale) string {
	if slices.ContainsFunc(orders, func(o report.PageOrder) bool { return o.Firing && inside(o, x) }) {
		return "strongest engine orders (thick: firing)"
	}
	return "strongest engine orders"
}

// firingLine is a mark line with a stroke of its own.
type firingLine struct {
	opts.MarkLineNameXAxisItem
	LineStyle *opts.LineStyle `json:"lineStyle,omitempty"`
}

// lossTable gives the loss at the orders and at the octave centres.
func lossTable(r *report.Page, i, k int) table {
	e := r.Layouts[i].Exhausts[k]
	t := table{Caption: "Loss of the line: " + lineName(r, i, k), Head: []string{"Frequency, Hz", "insertion loss, dB", "transmission loss, dB", "engine order", "source level there, dB"}}
	for _, o := range e.Loss.Orders {
		name := fmt.Sprintf("%g", plot.Rounded(o.Order, 2))
		if o.Firing {
			name += " (firing)"
		}
		f := o.FrequencyHz
		t.Rows = append(t.Rows, []cell{num(hertz.bare(&f)), num(decibel.bare(at(e.Loss, f, e.Loss.InsertionDB))),
			num(decibel.bare(at(e.Loss, f, e.Loss.TransmissionDB))), words(name), num(decibel.bare(o.LevelDB))})
	}
	for b, f := range r.BandsHz {
		v := (*float64)(nil)
		if b < len(e.InsertionLoss) {
			v = e.InsertionLoss[b]
		}
		t.Rows = append(t.Rows, []cell{{Text: "octave " + bandNames(r)[b]}, num(decibel.bare(v)),
			num(decibel.bare(at(e.Loss, f, e.Loss.TransmissionDB))), words(""), num("–")})
	}
	t.Notes = []string{"Octave rows: insertion loss weighted with the energy in the band, transmission loss at its centre."}
	return t
}

// at is the value at the computed frequency nearest to f, none outside the computed span.
func at(l report.Loss, f float64, y []*float64) *float64 {
	n := len(l.FrequencyHz)
	if n == 0 || f < l.FrequencyHz[0] || f > l.FrequencyHz[n-1] {
		return nil
	}
	best := 0
	for i := range l.FrequencyHz {
		if math.Abs(l.FrequencyHz[i]-f) < math.Abs(l.FrequencyHz[best]-f) {
			best = i
		}
	}
	return y[best]
}
