package charts

import (
	"fmt"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// enclosureSection shows for each box what it takes off, the air it gets and what it says of heat.
func enclosureSection(r *Report, u unitSet) section {
	s := section{ID: "enclosure", Title: "The box round the engine", Lead: []string{
		"Sound wants a box shut, heat wants it open. Starved means too little air to burn; cooked means enough to burn but too little to cool."}}
	for k, e := range r.Enclosures {
		s.Figures = append(s.Figures, boxLoss(r, k), boxChanges(r, k))
		s.Tables = append(s.Tables, boxAir(e, u))
		l := list{Title: "Verdicts on " + e.Name}
		for _, v := range e.Verdicts {
			l.Items = append(l.Items, item{Kind: v.Code, Text: v.Text})
		}
		if e.FanStoppedText != "" {
			l.Items = append(l.Items, item{Kind: "fan stopped", Text: e.FanStoppedText})
		}
		for _, w := range e.Warnings {
			l.Items = append(l.Items, item{Kind: "warning", Text: w})
		}
		if len(l.Items) > 0 {
			s.Lists = append(s.Lists, l)
		}
	}
	return s
}

func boxLoss(r *Report, k int) figure {
	e := r.Enclosures[k]
	f := figure{ID: fmt.Sprintf("box-%d", k+1), Title: "What " + e.Name + " takes off, by octave", Height: 300}
	f.Table = table{Caption: "Insertion loss of " + e.Name + ", dB", Head: append([]string{"Box"}, bandNames(r)...)}
	f.Table.Head = append(f.Table.Head, "dB(A)")
	var y extent
	y.take(e.InsertionDB...)
	if !y.any {
		f.Table, f.Empty = table{}, "The insertion loss of "+e.Name+" was not computed, so there is no chart."
		return f
	}
	f.Table.Rows = [][]cell{append(bandRow(e.Name, e.InsertionDB), num(decibelA.bare(e.InsertionDBA)))}
	f.Alt = "Insertion loss of " + e.Name + " by octave band; " + decibelA.text(e.InsertionDBA) + " over all."
	var data []opts.BarData
	for b, v := range e.InsertionDB {
		data = append(data, opts.BarData{Name: bandNames(r)[b] + " Hz: " + decibel.text(v), Value: orGap(roundedOrNil(v))})
	}
	p := newPlot("", "dB", bandsX(), valueY("insertion loss, dB", y.fromZero()))
	p.xData(bandNames(r))
	p.grid(14, 14, 28, 30)
	p.add(echarts.SingleSeries{Name: "insertion loss", Type: "bar", Data: data, BarWidth: "60%", ItemStyle: &opts.ItemStyle{Color: "var:c1"},
		Label: &opts.Label{Show: opts.Bool(true), Position: "top", Color: ink, FontSize: 11}})
	f.Plot = p
	return f
}

func roundedOrNil(v *float64) *float64 { return decibel.shown(v) }

func boxChanges(r *Report, k int) figure {
	e := r.Enclosures[k]
	f := figure{ID: fmt.Sprintf("box-changes-%d", k+1), Title: "What a change to " + e.Name + " would do", Height: 64 + 46*(len(e.Changes)+1)}
	f.Table = table{Caption: "Changes to " + e.Name, Head: []string{"Change", "takes off, dB(A)", "against now, dB"}}
	rows, right, data := []string{"as it is"}, []string{decibelA.bare(e.InsertionDBA)}, []opts.BarData{changeBar("as it is", e.InsertionDBA)}
	var x extent
	for _, c := range e.Changes {
		x.take(c.InsertionDBA)
		rows, right, data = append(rows, c.Change), append(right, decibelA.bare(c.InsertionDBA)), append(data, changeBar(c.Change, c.InsertionDBA))
		f.Table.Rows = append(f.Table.Rows, []cell{words(c.Change), num(decibelA.bare(c.InsertionDBA)), words(gained(e.InsertionDBA, c.InsertionDBA))})
	}
	if !x.any {
		f.Table, f.Empty = table{}, "No changes to "+e.Name+" were computed, so there is no chart."
		return f
	}
	x.take(e.InsertionDBA)
	f.Alt = fmt.Sprintf("Insertion loss of %s as it is (%s) and after each of %d changes; more is quieter.", e.Name, decibelA.text(e.InsertionDBA), len(e.Changes))
	p := newPlot("rows", "dB(A)", valueX("takes off, dB(A): more is quieter", x.fromZero()), rowsY(rows))
	p.ExtendYAxis(rightY(right))
	p.grid(14, 8, 28, 10)
	p.add(echarts.SingleSeries{Name: "insertion loss", Type: "bar", Data: data, BarWidth: "14", ItemStyle: &opts.ItemStyle{Color: "var:c1"}})
	f.Plot = p
	return f
}

// gained words the difference that a change of insertion loss makes to the ear.
func gained(now, then *float64) string {
	if now == nil || then == nil {
		return "–"
	}
	d := *then - *now
	return signed(d) + ", " + heardAs(-d)
}

func changeBar(name string, v *float64) opts.BarData {
	return opts.BarData{Name: name + "\n" + decibelA.text(v), Value: orGap(roundedOrNil(v))}
}

func boxAir(e Enclosure, u unitSet) table {
	t := table{Caption: "Air and heat of " + e.Name, Head: []string{"What", "value"}}
	for _, row := range []struct {
		name string
		q    quantity
		v    *float64
	}{
		{"air it gets", u.flow, e.AirM3S}, {"air to burn", u.flow, e.CombustionM3S}, {"air to cool", u.flow, e.CoolingM3S},
		{"inlet, free area", u.area, e.InletM2}, {"inlet needed", u.area, e.InletNeededM2}, {"outlet, free area", u.area, e.OutletM2},
		{"velocity in the inlet", u.speed, e.InletMS}, {"pressure drop of the inlet", u.draught, e.InletDropPa}, {"pressure the fan gives", u.draught, e.FanPa},
		{"temperature rise", u.rise, e.RiseK}, {"temperature rise, fan stopped", u.rise, e.FanStoppedRiseK},
	} {
		t.Rows = append(t.Rows, []cell{words(row.name), num(row.q.text(row.v))})
	}
	return t
}
