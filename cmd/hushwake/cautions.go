package main

import (
	"sort"
	"strings"

	"hushwake/silencer"
)

// sharedFinding is a caution with the layouts it concerns; where is empty when it concerns all.
type sharedFinding struct {
	silencer.Finding
	where string
}

// cautions gathers the cautions of all layouts, each once, most dangerous first.
func (w *worked) cautions() []sharedFinding { return w.gather(false) }

// refusals gathers why layouts are refused.
func (w *worked) refusals() []sharedFinding { return w.gather(true) }

func (w *worked) gather(refusing bool) []sharedFinding {
	type group struct {
		f       silencer.Finding
		layouts []string
	}
	var groups []*group
	byText := map[string]*group{}
	for _, p := range w.predictions {
		for _, f := range p.Findings {
			if f.Refuse != refusing {
				continue
			}
			g, ok := byText[f.Code+f.Text]
			if !ok {
				g = &group{f: f}
				byText[f.Code+f.Text] = g
				groups = append(groups, g)
			}
			g.layouts = append(g.layouts, p.Layout.Name)
		}
	}
	rank := map[string]int{"danger": 0, "warning": 1, "caution": 2, "note": 3}
	sort.SliceStable(groups, func(i, j int) bool { return rank[groups[i].f.Severity] < rank[groups[j].f.Severity] })
	out := make([]sharedFinding, len(groups))
	for i, g := range groups {
		out[i] = sharedFinding{Finding: g.f}
		if refusing || len(g.layouts) < len(w.predictions) {
			out[i].where = strings.Join(g.layouts, "; ")
		}
	}
	return out
}
