package charts

import (
	"fmt"
	"reflect"
	"strings"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"hushwake/path/report"
)

// alongSection follows pressure and temperature from the manifold to the outlet.
func alongSection(r *report.Page, u unitSet) section {
	s := section{ID: "along", Title: "Back pressure and temperature along the line", Lead: []string{
		"From the manifold (top) to the outlet (bottom), at the rated duty. Bars are the pressure that each element uses up; the squares are what is left of it where the element begins. " +
			"Layouts with the same line stand together. A skin much over 60 °C burns at a touch (common practice, no source)."}}
	if u.temperature.unit != "°C" {
		s.Lead[0] = strings.ReplaceAll(s.Lead[0], "60 °C", "140 °F")
	}
	for i, l := range r.Layouts {
		for k := range l.Exhausts {
			if sharers(r, i, k)[0] != i {
				continue
			}
			s.Figures = append(s.Figures, pressureFigure(r, u, i, k), heatFigure(r, u, i, k))
		}
	}
	if len(s.Figures) == 0 {
		s.Empty = "No layout has an exhaust line, so there is nothing to follow."
	}
	if len(s.Figures) > 4 {
		s.More, s.Figures = s.Figures[4:], s.Figures[:4]
		s.MoreLabel = "Lines of the other layouts"
	}
	return s
}

// sharers are the layouts in which the engine has the very same line, the first of them first.
func sharers(r *report.Page, i, k int) []int {
	var in []int
	for n, l := range r.Layouts {
		if e := exhaustOf(l, r.Layouts[i].Exhausts[k].Engine); n == i || e != nil && sameLine(*e, r.Layouts[i].Exhausts[k]) {
			in = append(in, n)
		}
	}
	return in
}

func sameLine(a, b report.Exhaust) bool {
	return a.Engine == b.Engine && reflect.DeepEqual(a.Along, b.Along) && reflect.DeepEqual(a.Limit, b.Limit) &&
		reflect.DeepEqual(a.InsertionLoss, b.InsertionLoss) && reflect.DeepEqual(a.Loss, b.Loss)
}

// lineName names the layouts that have the line, and the engine where there are several.
func lineName(r *report.Page, i, k int) string {
	name := titled(r, i)
	if in := sharers(r, i, k); len(in) > 1 {
		name = layoutsSaid(in)
	}
	if len(r.Layouts[i].Exhausts) > 1 {
		name += ", " + r.Layouts[i].Exhausts[k].Engine
	}
	return name
}

func elementRows(line []report.Along) []string {
	var rows []string
	for _, a := range line {
		rows = append(rows, elementName(a))
	}
	return rows
}

// elementName is the name that cautions use for the element too, in plain words.
func elementName(a report.Along) string {
	if a.Name == "" {
		return plainWord(a.Kind)
	}
	return plainWord(a.Name)
}

func plainWord(s string) string { return strings.ReplaceAll(s, "_", " ") }

func pressureFigure(r *report.Page, u unitSet, i, k int) figure {
	e := r.Layouts[i].Exhausts[k]
	f := figure{ID: fmt.Sprintf("pressure-%d-%d", i+1, k+1), Title: "Pressure: " + lineName(r, i, k),
		Height: 64 + 42*len(e.Along), Table: alongTable(r, u, i, k)}
	var x extent
	for _, a := range e.Along {
		x.take(u.pressure.shown(a.LossKPa), u.pressure.shown(a.PressureKPa))
	}
	if !x.any {
		f.Empty = "No pressures along this line were computed, so there is no chart."
		return f
	}
	limit := u.pressure.shown(e.Limit)
	x.take(limit)
	f.Alt = fmt.Sprintf("Back pressure along the line of %s: %s in all at rated, limit %s, through %d elements.", lineName(r, i, k),
		u.pressure.text(e.RatedBackPressure), u.pressure.text(e.Limit), len(e.Along))
	f.Key = []mark{{Class: "k1", Letter: "▬", Text: "used up by the element"}, lookOf(1).point("left where it begins")}
	p := newPlot("rows", u.pressure.unit, valueX(u.pressure.unit, x.fromZero()), rowsY(elementRows(e.Along)))
	p.grid(26, 50, 28, 10)
	var loss []opts.BarData
	var left []opts.LineData
	for n, a := range e.Along {
		loss = append(loss, opts.BarData{Value: orGap(u.pressure.shown(a.LossKPa)), Name: elementName(a) + "\nuses " + u.pressure.text(a.LossKPa)})
		left = append(left, opts.LineData{Value: []any{orGap(u.pressure.shown(a.PressureKPa)), n}, Name: elementName(a) + "\nbegins at " + u.pressure.text(a.PressureKPa)})
	}
	bars := echarts.SingleSeries{Name: "used up", Type: "bar", Data: loss, BarWidth: "12", ItemStyle: &opts.ItemStyle{Color: "var:c1"}}
	if limit != nil {
		bars.MarkLines = limitLine(opts.MarkLineNameXAxisItem{XAxis: *limit}, "limit "+u.pressure.text(e.Limit), "start")
	}
	p.add(bars)
	p.add(alongLine("left", 1, left))
	f.Plot = p
	return f
}

func alongLine(name string, i int, data []opts.LineData) echarts.SingleSeries {
	k := lookOf(i)
	return echarts.SingleSeries{Name: name, Type: "line", Data: data, Symbol: k.symbol(), SymbolSize: 9,
		ItemStyle: &opts.ItemStyle{Color: k.paint()}, LineStyle: &opts.LineStyle{Color: k.paint(), Width: 0.1, Opacity: opts.Float(0)}}
}

func orGap(v *float64) any {
	if v == nil {
		return "-"
	}
	return *v
}

func heatFigure(r *report.Page, u unitSet, i, k int) figure {
	e := r.Layouts[i].Exhausts[k]
	f := figure{ID: fmt.Sprintf("heat-%d-%d", i+1, k+1), Title: "Temperature: " + lineName(r, i, k), Height: 64 + 42*len(e.Along),
		Note: "The values stand in the table under the pressure chart."}
	var x extent
	var gas, skin []opts.LineData
	for n, a := range e.Along {
		x.take(u.temperature.shown(a.GasC), u.temperature.shown(a.SkinC))
		gas = append(gas, opts.LineData{Value: []any{orGap(u.temperature.shown(a.GasC)), n}, Name: elementName(a) + "\ngas " + u.temperature.text(a.GasC)})
		skin = append(skin, opts.LineData{Value: []any{orGap(u.temperature.shown(a.SkinC)), n}, Name: elementName(a) + "\nskin " + u.temperature.text(a.SkinC)})
	}
	if !x.any {
		f.Empty = "No temperatures along this line were computed, so there is no chart."
		return f
	}
	f.Alt = fmt.Sprintf("Gas and skin temperature along the line of %s; gas leaves at %s.", lineName(r, i, k), u.temperature.text(e.OutletTemperature))
	f.Key = []mark{lookOf(1).point("gas, where the element ends"), lookOf(0).point("skin, outside")}
	p := newPlot("rows", u.temperature.unit, valueX(u.temperature.unit, x.fromZero()), rowsY(elementRows(e.Along)))
	p.grid(26, 18, 28, 10)
	p.add(alongLine("gas", 1, gas))
	p.add(alongLine("skin", 0, skin))
	f.Plot = p
	return f
}

func alongTable(r *report.Page, u unitSet, i, k int) table {
	t := table{Caption: "Along the line, rated duty: " + lineName(r, i, k), Head: []string{"Element", "kind", "uses, " + u.pressure.unit,
		"begins at, " + u.pressure.unit, "gas, " + u.temperature.unit, "skin, " + u.temperature.unit, "velocity, " + u.speed.unit, "growth, " + u.small.unit}}
	for _, a := range r.Layouts[i].Exhausts[k].Along {
		t.Rows = append(t.Rows, []cell{words(elementName(a)), words(plainWord(a.Kind)), num(u.pressure.bare(a.LossKPa)), num(u.pressure.bare(a.PressureKPa)),
			num(u.temperature.bare(a.GasC)), num(u.temperature.bare(a.SkinC)), num(u.speed.bare(a.VelocityMS)), num(u.small.bare(a.GrowthMM))})
	}
	return t
}
