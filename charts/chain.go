package charts

import (
	"fmt"
	"strings"

	"hushwake/charts/plot"
	"hushwake/path/report"
)

// chainFold takes the loudest route of a layout apart, link by link and band by band.
func chainFold(r *report.Page, k int) fold {
	c := r.Chains[k]
	to := r.Listeners[c.Listener].Name
	return fold{Label: "By octave: " + titled(r, c.Layout) + ", to " + to, matter: matter{
		Lead: []string{"The loudest single route: " + routeName(report.Route{Source: c.Source, Route: c.Route}) + ". It alone brings " + decibelA.text(c.LevelDBA) + ". " +
			"The first link is what the engine gives off, every further link takes something away (minus) or adds (plus), the last line is what arrives."},
		Tables: []table{chainTable(r, c, running(c.Links, len(r.BandsHz)))}}}
}

// running adds the links up band by band; a missing value makes the rest of its band missing.
func running(links []report.ExplainStep, bands int) [][]*float64 {
	var after [][]*float64
	sum := make([]*float64, bands)
	for i, l := range links {
		next := make([]*float64, bands)
		for b := range next {
			if b >= len(l.Bands) || l.Bands[b] == nil || i > 0 && sum[b] == nil {
				continue
			}
			x := *l.Bands[b]
			if i > 0 {
				x += *sum[b]
			}
			next[b] = &x
		}
		after, sum = append(after, next), next
	}
	return after
}

// lineData leaves a gap where there is no value.
func lineData(values []*float64) []any {
	data := make([]any, len(values))
	for i, v := range values {
		data[i] = "-"
		if v != nil {
			data[i] = plot.Rounded(*v, 1)
		}
	}
	return data
}

// bandNames prints 31.5, 63, 1k.
func bandNames(r *report.Page) []string {
	var names []string
	for _, f := range r.BandsHz {
		if f >= 1000 {
			names = append(names, fmt.Sprintf("%gk", plot.Rounded(f/1000, 2)))
		} else {
			names = append(names, fmt.Sprintf("%g", plot.Rounded(f, 2)))
		}
	}
	return names
}

func chainTable(r *report.Page, c report.Chain, after [][]*float64) table {
	t := table{Caption: "Chain by octave band, dB: " + titled(r, c.Layout), Head: append([]string{"Link"}, bandNames(r)...)}
	for i, l := range c.Links {
		row := []cell{words(fmt.Sprint(i+1, " · ", l.Name))}
		for b := range r.BandsHz {
			var v *float64
			if b < len(l.Bands) {
				v = l.Bands[b]
			}
			row = append(row, gain(v, i == 0))
		}
		t.Rows = append(t.Rows, row)
		if note := stated(l); note != "" {
			t.Notes = append(t.Notes, fmt.Sprint(i+1, " · ", note))
		}
	}
	if n := len(after); n > 0 {
		row := []cell{words("at the ear")}
		for _, v := range after[n-1] {
			row = append(row, cell{Text: decibel.bare(v), Num: true, Class: "sum"})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// gain prints a link's entry with its sign and a tint by size.
func gain(v *float64, level bool) cell {
	c := num(decibel.bare(v))
	if v == nil || level {
		return c
	}
	switch x := *v; {
	case x <= -20:
		c.Class = "less3"
	case x <= -10:
		c.Class = "less2"
	case x <= -3:
		c.Class = "less1"
	case x >= 3:
		c.Class = "more2"
	case x >= 0.05:
		c.Class = "more1"
	}
	if *v > 0 && strings.ContainsAny(c.Text, "123456789") {
		c.Text = "+" + c.Text
	}
	return c
}

// stated is the formula of a link and where it comes from.
func stated(l report.ExplainStep) string {
	parts := []string{}
	for _, s := range []string{l.Formula, origin(l)} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, "; ")
}

func origin(l report.ExplainStep) string {
	switch {
	case l.Source == "":
		return l.Mark
	case l.Mark == "":
		return l.Source
	}
	return l.Source + " (" + l.Mark + ")"
}
