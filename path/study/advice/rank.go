// Package advice orders layouts and says in words what the order is worth: ranking, trade-off front, differences and
// chances in plain language.
package advice

import (
	"math"
	"sort"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// Ranked is one layout in the order of a listener.
type Ranked struct {
	Layout           string
	Level, Low, High float64  // dB(A); no Level where it has to be asked about first
	Quietest         float64  // probability
	Over             *float64 // probability to be over the limit of the place; nil = none is stated
	Refused          bool
	Wet              bool // water is injected into a line of it
}

// Ranking is the order of the layouts at one listener.
type Ranking struct {
	Listener string
	Rows     []Ranked
}

// Asked says whether the layout has to be asked about before it can be judged: it has no level.
func (r Ranked) Asked() bool { return math.IsNaN(r.Level) }

// class is 0 for a layout that is ranked, then to be asked about, then refused.
func (r Ranked) class() int {
	switch {
	case r.Refused:
		return 2
	case r.Asked():
		return 1
	}
	return 0
}

// Rank orders the layouts at each listener by level, quietest first. Layouts that have to be asked
// about and refused ones come after all others.
func Rank(predictions []path.Prediction, s draws.Spread) []Ranking {
	var all []Ranking
	at := map[string]int{}
	for i, p := range predictions {
		for j, h := range p.Listeners {
			name := h.Listener.Name
			k, ok := at[name]
			if !ok {
				k = len(all)
				at[name], all = k, append(all, Ranking{Listener: name})
			}
			v := s.Layouts[i].Listeners[j]
			all[k].Rows = append(all[k].Rows, Ranked{s.Layouts[i].Name, v.Level, v.Low, v.High, v.Quietest, v.OverLimit, p.Refused, p.Layout.Wet()})
		}
	}
	for _, r := range all {
		sort.SliceStable(r.Rows, func(a, b int) bool {
			x, y := r.Rows[a], r.Rows[b]
			switch {
			case x.class() != y.class():
				return x.class() < y.class()
			case x.Asked():
				return x.Low < y.Low
			}
			return math.Round(1e3*x.Level) < math.Round(1e3*y.Level) // what prints alike keeps the order of the file
		})
	}
	return all
}
