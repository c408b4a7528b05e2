package charts

import (
	"fmt"
	"math"
	"sort"
	"strings"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"hushwake/path/report"
)

// routesShown is how many routes get a colour of their own; the rest share one.
const routesShown = 6

// routesSection shows which way the sound comes: shares of A-weighted energy, because decibels
// do not add up.
func routesSection(r *report.Page) section {
	s := section{ID: "routes", Title: "What rules each level", Lead: []string{
		"Each bar splits the A-weighted sound energy at a place by the way it came. Energy shares add up to 100 %; decibels do not, so they stand side by side in the table. " +
			"Halving the largest share gains at most 3 dB: work on the longest piece first, and on nothing else until it is no longer the longest."}}
	drawn := false
	for j := range r.Listeners {
		f := routesFigure(r, j)
		drawn = drawn || f.Empty == ""
		s.Figures = append(s.Figures, f)
	}
	if !drawn {
		s.Figures, s.Empty = nil, "No routes were computed, so there is nothing to split."
	}
	return s
}

// shareOf is one route's part of the energy in one layout.
type shareOf struct {
	name  string
	level *float64
	share float64
}

// shares turns levels into parts of the sum of 10^(L/10), loudest first.
func shares(routes []report.Route) []shareOf {
	top := math.Inf(-1)
	for _, p := range routes {
		if p.LevelDBA != nil {
			top = math.Max(top, *p.LevelDBA)
		}
	}
	var out []shareOf
	sum := 0.0
	for _, p := range routes {
		s := shareOf{name: routeName(p), level: p.LevelDBA}
		if p.LevelDBA != nil {
			s.share = math.Pow(10, (*p.LevelDBA-top)/10)
			sum += s.share
		}
		out = append(out, s)
	}
	for i := range out {
		if sum > 0 {
			out[i].share /= sum
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].share > out[b].share })
	return out
}

// quieter stands for all the routes without a colour of their own.
const quieter = "all quieter routes together"

func routeName(p report.Route) string {
	switch {
	case strings.HasPrefix(p.Source, "all others"):
		return quieter
	case p.Route == "":
		return p.Source
	case p.Source == "":
		return p.Route
	}
	return p.Source + ": " + p.Route
}

// setApart takes the sum of the quiet routes out of the names: it has no place among single ones.
func setApart(names []string) (single, rest []string) {
	for _, n := range names {
		if n == quieter {
			rest = append(rest, n)
		} else {
			single = append(single, n)
		}
	}
	return single, rest
}

// leading names the routes with the largest share in any layout.
func leading(all [][]shareOf) []string {
	best := map[string]float64{}
	var names []string
	for _, layout := range all {
		for _, s := range layout {
			if _, met := best[s.name]; !met {
				names = append(names, s.name)
			}
			best[s.name] = math.Max(best[s.name], s.share)
		}
	}
	sort.SliceStable(names, func(a, b int) bool { return best[names[a]] > best[names[b]] })
	return names
}

func routesFigure(r *report.Page, j int) figure {
	name := r.Listeners[j].Name
	f := figure{ID: fmt.Sprintf("routes-%d", j+1), Title: "Where the sound at " + name + " comes from", Height: 64 + 46*len(r.Layouts)}
	all := make([][]shareOf, len(r.Layouts))
	var rows, said []string
	for i, l := range r.Layouts {
		all[i] = shares(l.Heard[j].Paths)
		rows = append(rows, titled(r, i))
		if len(all[i]) > 0 && all[i][0].share > 0 {
			said = append(said, fmt.Sprintf("%s: %s with %s", titled(r, i), all[i][0].name, percent.text(&all[i][0].share)))
		}
	}
	f.Table = routesTable(r, j, all)
	names := leading(all)
	if len(said) == 0 {
		f.Empty = "No routes to " + name + " were computed, so there is no chart."
		return f
	}
	f.Alt = "Largest share of the sound energy at " + name + " by layout. " + strings.Join(said, "; ") + "."
	names, rest := setApart(names)
	shown := names
	if len(names) > routesShown+1 {
		shown, rest = names[:routesShown], append(names[routesShown:], rest...)
	}
	p := newPlot("rows", "%", valueX("share of the A-weighted energy, %", scale{0, 100, 25}), rowsY(rows))
	p.grid(14, 16, 28, 10)
	for k, n := range shown {
		p.add(shareSeries(r, all, k, n, []string{n}))
		f.Key = append(f.Key, letterMark(k, n))
	}
	if rest != nil {
		p.add(shareSeries(r, all, len(shown), quieter, rest))
		f.Key = append(f.Key, letterMark(len(shown), quieter))
	}
	f.Plot = p
	return f
}

func letter(k int) string { return string(rune('A' + k)) }

func letterMark(k int, text string) mark {
	m := lookOf(k).point(text)
	m.Shape, m.Letter = "", letter(k)
	return m
}

// shareSeries is one route (or several together) through all the layouts.
func shareSeries(r *report.Page, all [][]shareOf, k int, label string, names []string) echarts.SingleSeries {
	in := map[string]bool{}
	for _, n := range names {
		in[n] = true
	}
	var data []opts.BarData
	for i := range all {
		sum := 0.0
		for _, s := range all[i] {
			if in[s.name] {
				sum += s.share
			}
		}
		d := opts.BarData{Name: titled(r, i) + "\n" + letter(k) + " · " + label + ": " + share(sum), Value: rounded(100*sum, 3)}
		if sum < 0.07 {
			d.Label = &opts.Label{Show: opts.Bool(false)}
		}
		data = append(data, d)
	}
	return echarts.SingleSeries{Name: letter(k), Type: "bar", Stack: "share", Data: data, BarWidth: "16",
		ItemStyle: &opts.ItemStyle{Color: lookOf(k).paint(), BorderColor: paper, BorderWidth: 1},
		Label:     &opts.Label{Show: opts.Bool(true), Formatter: "{a}", Position: "inside", Color: paper, FontSize: 12, FontWeight: "bold"}}
}

func share(x float64) string {
	if x > 0 && x < 0.005 {
		return "<\u00a01\u00a0%"
	}
	return percent.text(&x)
}

// routesTable has a row for each route and a column for each layout: levels side by side, with
// their shares.
func routesTable(r *report.Page, j int, all [][]shareOf) table {
	t := table{Caption: "Routes to " + r.Listeners[j].Name + ": dB(A), and share of the energy", Head: []string{"Route"}}
	for i := range all {
		t.Head = append(t.Head, column(r, titled(r, i), i))
	}
	for _, name := range leading(all) {
		row := []cell{words(name)}
		for i := range all {
			row = append(row, num(levelAndShare(all[i], name)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// column heads a layout's column: by name where there is room, else by number.
func column(r *report.Page, name string, i int) string {
	if len(r.Layouts) > 3 {
		return "layout " + tag(i)
	}
	return name
}

// levelAndShare prints one route of a layout; routes of the same name are taken together.
func levelAndShare(routes []shareOf, name string) string {
	sum, energy, met := 0.0, 0.0, false
	for _, s := range routes {
		if s.name == name && s.level != nil {
			sum, energy, met = sum+s.share, energy+math.Pow(10, *s.level/10), true
		}
	}
	if !met {
		return "–"
	}
	level := 10 * math.Log10(energy)
	return decibel.bare(&level) + " (" + share(sum) + ")"
}
