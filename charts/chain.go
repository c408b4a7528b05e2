package charts

import (
	"fmt"
	"strings"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"hushwake/path/report"
)

// chainsShown are drawn at once; further chains stand behind a fold.
const chainsShown = 2

// chainSection takes single routes apart, link by link and band by band.
func chainSection(r *report.Page) section {
	s := section{ID: "chain", Title: "The chain from source to ear", Lead: []string{
		"The loudest route of each layout; layouts that share one stand together. The first link is what the engine gives off, every further link takes something away (minus) or adds (plus), the last line is what arrives. " +
			"The curves show the level after each link, numbered as in the table."}}
	if len(r.Chains) == 0 || len(r.BandsHz) == 0 {
		s.Empty = "No chain was handed over for this page; the explain command prints it."
		return s
	}
	for k, g := range alike(r.Chains) {
		s.Figures = append(s.Figures, chainFigure(r, k, g))
	}
	if len(s.Figures) > chainsShown {
		s.More, s.Figures = s.Figures[chainsShown:], s.Figures[:chainsShown]
		s.MoreLabel = "More chains"
	}
	return s
}

// alike gathers the chains that are the same in several layouts, in the order met.
func alike(chains []report.Chain) [][]int {
	var groups [][]int
	place := map[string]int{}
	for k, c := range chains {
		key := fmt.Sprintf("%d\x00%s\x00%s", c.Listener, c.Source, c.Route)
		for _, l := range c.Links {
			key += "\x00" + l.Name + l.Formula
			for _, v := range l.Bands {
				key += "\x00" + decibel.bare(v)
			}
		}
		g, met := place[key]
		if !met {
			g = len(groups)
			place[key] = g
			groups = append(groups, nil)
		}
		groups[g] = append(groups[g], k)
	}
	return groups
}

// chainName names the layouts that share a chain.
func chainName(r *report.Page, group []int) string {
	if len(group) == 1 {
		return titled(r, r.Chains[group[0]].Layout)
	}
	var in []int
	for _, k := range group {
		in = append(in, r.Chains[k].Layout)
	}
	return layoutsSaid(in)
}

func chainFigure(r *report.Page, k int, group []int) figure {
	c := r.Chains[group[0]]
	to := r.Listeners[c.Listener].Name
	route := routeName(report.Route{Source: c.Source, Route: c.Route})
	f := figure{ID: fmt.Sprintf("chain-%d", k+1), Wide: true, Height: 360,
		Title: chainName(r, group) + ", to " + to, Note: "The loudest single route: " + route + ". It alone brings " + decibelA.text(c.LevelDBA) + "."}
	after := running(c.Links, len(r.BandsHz))
	f.Table = chainTable(r, c, after)
	if len(after) == 0 {
		f.Empty = "This chain has no links, so there is no chart."
		return f
	}
	f.Alt = fmt.Sprintf("Level by octave band after each of %d links of the route %s to %s; the table gives every link.", len(after), route, to)
	var e extent
	for i := range after {
		e.take(after[i]...)
	}
	p := newPlot("", "dB", bandsX(), valueY("dB", e.level(2)))
	p.xData(bandNames(r))
	p.grid(14, 24, 28, 30)
	p.byAxis()
	for i := range after {
		p.add(chainSeries(i, len(after), after[i]))
		f.Key = append(f.Key, lookOf(i).mark(tag(i)+" · "+c.Links[i].Name))
	}
	f.Plot = p
	return f
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

func chainSeries(i, n int, levels []*float64) echarts.SingleSeries {
	k := lookOf(i)
	width := float32(1.5)
	if i == 0 || i == n-1 {
		width = 3
	}
	return echarts.SingleSeries{Name: tag(i), Type: "line", Data: lineData(levels), Symbol: k.symbol(), SymbolSize: 8,
		ItemStyle: &opts.ItemStyle{Color: k.paint()}, LineStyle: &opts.LineStyle{Color: k.paint(), Width: width, Type: k.line()}}
}

// lineData leaves a gap where there is no value.
func lineData(values []*float64) []opts.LineData {
	data := make([]opts.LineData, len(values))
	for i, v := range values {
		data[i].Value = "-"
		if v != nil {
			data[i].Value = rounded(*v, 2)
		}
	}
	return data
}

// bandNames prints 31.5, 63, 1k.
func bandNames(r *report.Page) []string {
	var names []string
	for _, f := range r.BandsHz {
		if f >= 1000 {
			names = append(names, fmt.Sprintf("%gk", rounded(f/1000, 2)))
		} else {
			names = append(names, fmt.Sprintf("%g", rounded(f, 2)))
		}
	}
	return names
}

func chainTable(r *report.Page, c report.Chain, after [][]*float64) table {
	t := table{Caption: "Chain by octave band, dB", Head: append([]string{"Link"}, bandNames(r)...)}
	for i, l := range c.Links {
		row := []cell{words(tag(i) + " · " + l.Name)}
		for b := range r.BandsHz {
			var v *float64
			if b < len(l.Bands) {
				v = l.Bands[b]
			}
			row = append(row, gain(v, i == 0))
		}
		t.Rows = append(t.Rows, row)
		if note := stated(l); note != "" {
			t.Notes = append(t.Notes, tag(i)+" · "+note)
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
