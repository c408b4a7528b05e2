package charts

import (
	"fmt"
	"slices"
	"strings"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"hushwake/charts/gloss"
	"hushwake/charts/plot"
	"hushwake/path/report"
	"hushwake/path/report/parts"
	"hushwake/path/study/advice"
)

// enclosureSection shows for each box what it takes off, the air it gets and what it says of heat.
func enclosureSection(r *report.Page, u unitSet, d *drawer) section {
	s := section{ID: "enclosure", Title: "The box round the engine: " + lives(r), Terms: gloss.Of("insertion loss"), matter: matter{Lead: []string{
		"Sound wants a box shut, heat wants it open. Starved means too little air to burn; cooked means enough to burn but too little to cool."}}}
	for i, p := range r.Pictures {
		for k, b := range p.Boxes {
			id := fmt.Sprintf("box-%d-%d", i+1, k+1)
			s.Views = append(s.Views, view{Group: "boxes", Of: "With layout", ID: id, Label: titled(r, i), On: len(s.Views) == 0 || i == max(r.Chosen, 0), Picture: d.fit(id+"-pic", b)})
		}
	}
	f := fold{Label: "Air, heat, and what a change would do", matter: matter{Tables: []table{boxAir(r, u)}}}
	for k := range r.Enclosures {
		if t := boxChanges(r, k); len(t.Rows) > 0 {
			f.Tables = append(f.Tables, t)
		}
	}
	s.Folds = []fold{{Label: "Will the engine live in it? Every box in words", matter: matter{Lists: boxVerdicts(r)}},
		{Label: "The boxes by octave", matter: matter{Figures: []figure{boxLoss(r)}}}, f}
	return s
}

// lives says how many of the boxes harm their engine.
func lives(r *report.Page) string {
	harm, all := 0, "every engine lives in it"
	for _, e := range r.Enclosures {
		for _, v := range e.Verdicts {
			if v.Code == "starved" || v.Code == "cooked" {
				harm++
				break
			}
			if v.Code == "unknown" {
				all = "not judged: holes unknown"
			}
		}
	}
	if harm == 0 {
		return all
	}
	return fmt.Sprintf("%d of %d harm their engine", harm, len(r.Enclosures))
}

// boxVerdicts says what each box does to its engine, then what all the boxes have in common once.
func boxVerdicts(r *report.Page) []list {
	verdicts, remarks := list{}, list{Title: "Remarks on the boxes"}
	in := map[string][]string{}
	var order []string
	for _, e := range r.Enclosures {
		for _, v := range e.Verdicts {
			verdicts.Items = append(verdicts.Items, item{Kind: v.Code, Text: ended(e.Name + ": " + strings.TrimPrefix(v.Text, v.Code+": "))})
		}
		if e.Soak != nil {
			verdicts.Items = append(verdicts.Items, item{Kind: "after stopping", Text: ended(e.Name + ": " + e.Soak.Text)})
		}
		if e.FanStopped != nil {
			verdicts.Items = append(verdicts.Items, item{Kind: "fan stopped", Text: ended(e.Name + ": " + e.FanStopped.Text)})
		}
		for _, w := range e.Warnings {
			if in[w] == nil {
				order = append(order, w)
			}
			in[w] = append(in[w], e.Name)
		}
	}
	for _, w := range order {
		text := capital(w)
		if n := len(in[w]); n < len(r.Enclosures) {
			text = strings.Join(in[w], "; ") + ": " + w
		}
		remarks.Items = append(remarks.Items, item{Text: ended(text)})
	}
	var lists []list
	for _, l := range []list{verdicts, remarks} {
		if len(l.Items) > 0 {
			lists = append(lists, l)
		}
	}
	return lists
}

// ended makes a sentence of a remark.
func ended(s string) string { return strings.TrimRight(capital(s), ". ") + "." }

// boxLoss draws all the boxes over the bands.
func boxLoss(r *report.Page) figure {
	f := figure{ID: "box", Title: "What each box takes off, by octave", Height: 340, Wide: true}
	f.Table = table{Caption: "Insertion loss of the boxes, dB", Head: append([]string{"Box"}, bandNames(r)...)}
	f.Table.Head = append(f.Table.Head, "dB(A)")
	var y plot.Extent
	var said []string
	for _, e := range r.Enclosures {
		y.Take(e.InsertionLoss...)
	}
	if !y.Any {
		f.Table, f.Empty = table{}, "The insertion loss of the boxes was not computed, so there is no chart."
		return f
	}
	p := plot.New("dB", plot.BandsX(), plot.ValueY("insertion loss, dB", y.FromZero()))
	p.XData(bandNames(r))
	p.Grid(14, 24, 28, 30)
	p.ByAxis()
	for k, e := range r.Enclosures {
		if len(e.InsertionLoss) == 0 {
			continue
		}
		l := coloured(r, standsFor(r, e.Places), plot.LookOf(k))
		if l.Colour == "c1" && e.InsertionLossDBA != nil {
			f.Title = "What each box takes off, by octave: " + e.Name + " " + wholeDBA.text(e.InsertionLossDBA) + " over all"
		}
		p.Add(echarts.SingleSeries{Name: e.Name, Type: "line", Data: lineData(e.InsertionLoss), Symbol: l.Symbol(), SymbolSize: 9,
			ItemStyle: &opts.ItemStyle{Color: l.Paint()}, LineStyle: &opts.LineStyle{Color: l.Paint(), Width: l.Width, Type: l.Line()}})
		f.Key = append(f.Key, l.Mark(e.Name+", "+decibelA.text(e.InsertionLossDBA)))
		f.Table.Rows = append(f.Table.Rows, append(bandRow(e.Name, e.InsertionLoss), num(decibelA.bare(e.InsertionLossDBA))))
		said = append(said, e.Name+": "+decibelA.text(e.InsertionLossDBA))
	}
	f.Alt = "Insertion loss of the boxes by octave band. Over all: " + strings.Join(said, "; ") + "."
	f.Plot = p
	return f
}

// standsFor is the layout that is told of, today's, or any other, of those that use a box.
func standsFor(r *report.Page, used []int) int {
	for _, i := range []int{max(r.Chosen, 0), r.Today} {
		if slices.Contains(used, i) {
			return i
		}
	}
	return len(r.Layouts)
}

// boxChanges is what each change to a box would make of it.
func boxChanges(r *report.Page, k int) table {
	e := r.Enclosures[k]
	t := table{Caption: "What changes to " + e.Name + " would do; as it is it takes off " + decibelA.text(e.InsertionLossDBA), Cards: true, Head: []string{"Change", "takes off, dB(A)", "its noise against now, dB"}}
	for _, c := range e.Changes {
		t.Rows = append(t.Rows, []cell{words(c.Change), num(decibelA.bare(c.DBA)), words(gained(e.InsertionLossDBA, c.DBA))})
	}
	return t
}

// gained is what a change of insertion loss makes of the level, below zero where it is quieter, in figures and in words.
func gained(now, then *float64) string {
	if now == nil || then == nil {
		return "–"
	}
	d := *now - *then
	return signed(d) + ", " + advice.Difference(d)
}

func boxAir(r *report.Page, u unitSet) table {
	t := table{Caption: "Air and heat of the boxes", Head: []string{"What"}}
	for _, e := range r.Enclosures {
		t.Head = append(t.Head, e.Name)
	}
	for _, row := range []struct {
		name string
		q    quantity
		v    func(parts.Enclosure) *float64
	}{
		{"air it gets", u.flow, func(e parts.Enclosure) *float64 { return e.AirFlow }},
		{"air to burn", u.flow, func(e parts.Enclosure) *float64 { return e.Combustion }},
		{"air to cool", u.flow, func(e parts.Enclosure) *float64 { return e.Cooling }},
		{"inlet, free area", u.area, func(e parts.Enclosure) *float64 { return e.InletArea }},
		{"inlet needed", u.area, func(e parts.Enclosure) *float64 { return e.InletNeeded }},
		{"outlet, free area", u.area, func(e parts.Enclosure) *float64 { return e.OutletArea }},
		{"velocity in the inlet", u.speed, func(e parts.Enclosure) *float64 { return e.InletVelocity }},
		{"pressure drop of the inlet", u.draught, func(e parts.Enclosure) *float64 { return e.InletDrop }},
		{"fan pressure for the air needed", u.draught, func(e parts.Enclosure) *float64 { return e.FanPressure }},
		{"temperature rise at rated", u.rise, func(e parts.Enclosure) *float64 { return e.Rise }},
		{"temperature rise at the running duty", u.rise, func(e parts.Enclosure) *float64 { return e.RunningRise }},
		{"air in the box at rated", u.temperature, func(e parts.Enclosure) *float64 { return e.TemperatureC }},
		{"what it may reach", u.temperature, func(e parts.Enclosure) *float64 { return e.LimitC }},
		{"temperature rise, fan stopped", u.rise, func(e parts.Enclosure) *float64 {
			if e.FanStopped == nil {
				return nil
			}
			return e.FanStopped.Rise
		}},
		{"air after stopping hot", u.temperature, func(e parts.Enclosure) *float64 {
			if e.Soak == nil {
				return nil
			}
			return e.Soak.PeakC
		}},
	} {
		cells := []cell{words(row.name + ", " + row.q.unit)}
		for _, e := range r.Enclosures {
			cells = append(cells, num(row.q.bare(row.v(e))))
		}
		t.Rows = append(t.Rows, cells)
	}
	return t
}
