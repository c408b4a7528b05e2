package charts

import (
	"math"
	"sort"
	"strings"

	"hushwake/path/report"
)

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

// quieter stands for all the routes too quiet to be told one by one.
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

// routesTables have a row for each route and a column for each layout that is told of: levels side by side, with
// their shares of the A-weighted energy, because decibels do not add up.
func routesTables(r *report.Page) (out []table) {
	for j, l := range r.Listeners {
		t := table{Caption: "Routes to " + l.Name + ": dB(A), and share of the energy", Head: []string{"Route"}}
		var all [][]shareOf
		for _, i := range r.InDetail() {
			all = append(all, shares(r.Layouts[i].Heard[j].Paths))
			t.Head = append(t.Head, titled(r, i))
		}
		for _, name := range leading(all) {
			row := []cell{words(name)}
			for i := range all {
				row = append(row, num(levelAndShare(all[i], name)))
			}
			t.Rows = append(t.Rows, row)
		}
		if len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
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

func share(x float64) string {
	if x > 0 && x < 0.005 {
		return "<\u00a01\u00a0%"
	}
	return percent.text(&x)
}
