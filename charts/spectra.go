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
)

// spectraSection shows the octave levels at each listener over the noise-rating curves.
func spectraSection(r *report.Page) section {
	s := section{ID: "spectra", Title: "For the acoustician: " + touched(r), Terms: gloss.Of("octave", "noise rating"), matter: matter{Lead: []string{
		"Octave levels without weighting. The grey curves are of equal annoyance: the rating of a sound is the highest curve it touches, and the band where it touches is the one to treat. " +
			"High values on the left are a drone, on the right a hiss."}}}
	drawn := false
	for j := range r.Listeners {
		f := spectrumFigure(r, j)
		drawn = drawn || f.Empty == ""
		s.Figures = append(s.Figures, f)
	}
	if !drawn {
		s.Figures, s.Empty = nil, "No octave levels were computed, so there are no spectra to draw."
	}
	s.behind(2, "Spectra at the other places")
	return s
}

func spectrumFigure(r *report.Page, j int) figure {
	name := r.Listeners[j].Name
	f := figure{ID: fmt.Sprintf("spectrum-%d", j+1), Title: "At " + name + ": " + rated(r, j), Height: 360, Table: spectrumTable(r, j)}
	var e plot.Extent
	for _, l := range r.Layouts {
		e.Take(l.Heard[j].Bands...)
	}
	if !e.Any {
		f.Empty = "No octave levels at " + name + " were computed, so there is no chart."
		return f
	}
	span := e.Steps(10, 5)
	p := plot.New("dB", plot.BandsX(), plot.ValueY("dB at "+shortened(name, 24), span))
	p.XData(bandNames(r))
	p.Grid(14, 44, 28, 30)
	p.ByAxis()
	for n, c := range r.NRCurves {
		if crosses(c.BandsDB, span) {
			p.Add(ratingSeries(n, c, span))
		}
	}
	for _, i := range chosenLast(r) {
		h, k := r.Layouts[i].Heard[j], lookIn(r, i)
		if !sounds(h) {
			continue
		}
		p.Add(echarts.SingleSeries{Name: tag(r, i), Type: "line", Data: lineData(h.Bands), Symbol: k.Symbol(), SymbolSize: 7,
			ItemStyle: &opts.ItemStyle{Color: k.Paint()}, LineStyle: &opts.LineStyle{Color: k.Paint(), Width: k.Width, Type: k.Line()}})
	}
	var said []string
	for i, l := range r.Layouts {
		if sounds(l.Heard[j]) {
			f.Key = append(f.Key, lookIn(r, i).Mark(titled(r, i)))
			said = append(said, titled(r, i)+": noise rating "+wholeDB.bare(l.Heard[j].NR))
		}
	}
	f.Alt = "Octave levels at " + name + " by layout over noise-rating curves. " + strings.Join(said, "; ") + "."
	f.Plot = p
	return f
}

// sounds tells whether there is any octave level to draw.
func sounds(h report.Listener) bool {
	return slices.ContainsFunc(h.Bands, func(v *float64) bool { return v != nil })
}

// touched names the octave to treat at the first place that has levels, with the layout that is told of.
func touched(r *report.Page) string {
	for j, at := range r.Listeners {
		if h := r.Layouts[max(r.Chosen, 0)].Heard[j]; h.NR != nil {
			return "at " + at.Name + " the " + strings.Replace(bandNames(r)[h.Touches]+" Hz", "k Hz", " kHz", 1) + " octave sets the noise rating"
		}
	}
	return "spectra against noise-rating curves"
}

// rated is what the noise rating is with the layout that is told of.
func rated(r *report.Page, j int) string {
	nr := r.Layouts[max(r.Chosen, 0)].Heard[j].NR
	if nr == nil {
		return "octave levels"
	}
	return "noise rating " + wholeDB.bare(nr) + " with layout " + tag(r, max(r.Chosen, 0))
}

// chosenLast are the layouts as they are drawn, those that are told of over the rest.
func chosenLast(r *report.Page) []int {
	detailed := r.InDetail()
	out := slices.DeleteFunc(plot.UpTo(len(r.Layouts)), func(i int) bool { return slices.Contains(detailed, i) })
	slices.Reverse(detailed)
	return append(out, detailed...)
}

// crosses tells whether any of the curve lies inside the scale.
func crosses(bands []*float64, span plot.Scale) bool {
	for _, b := range bands {
		if b != nil && *b >= span.Low && *b <= span.High {
			return true
		}
	}
	return false
}

// ratingSeries is a thin grey curve; the script writes the name of a "named" one at its right
// end, unless that lies outside the scale.
func ratingSeries(n int, c report.NRCurve, span plot.Scale) echarts.SingleSeries {
	id := fmt.Sprintf("nameless %d", n)
	if end := c.BandsDB[len(c.BandsDB)-1]; end != nil && *end >= span.Low && *end <= span.High {
		id = fmt.Sprintf("named %d", n)
	}
	return echarts.SingleSeries{Id: id, Name: c.Name, Type: "line", Data: lineData(c.BandsDB), Symbol: "none",
		LineStyle: &opts.LineStyle{Color: plot.Muted, Width: 1, Opacity: opts.Float(0.45)}, ItemStyle: &opts.ItemStyle{Color: plot.Muted},
		Label: &opts.Label{Color: plot.Muted, FontSize: 11}}
}

func spectrumTable(r *report.Page, j int) table {
	t := table{Caption: "Octave levels at " + r.Listeners[j].Name + ", dB", Head: append([]string{"Layout"}, bandNames(r)...)}
	t.Head = append(t.Head, "noise rating")
	for i, l := range r.Layouts {
		if len(l.Heard[j].Bands) > 0 {
			t.Rows = append(t.Rows, append(bandRow(titled(r, i), l.Heard[j].Bands), num(wholeDB.bare(l.Heard[j].NR))))
		}
	}
	return t
}

func bandRow(name string, bands []*float64) []cell {
	row := []cell{words(name)}
	for _, b := range bands {
		row = append(row, num(decibel.bare(b)))
	}
	return row
}
