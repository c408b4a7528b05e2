// Package advice orders layouts and says in words what the order is worth: ranking, trade-off front, differences and
// chances in plain language.
package advice

import (
	"sort"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// Ranked is one layout in the order of a listener.
type Ranked struct {
	Layout           string
	Level, Low, High float64 // dB(A)
	Quietest         float64 // probability
	Refused          bool
	Wet              bool // water is injected into a line of it
}

// Ranking is the order of the layouts at one listener.
type Ranking struct {
	Listener string
	Rows     []Ranked
}

// Rank orders the layouts at each listener by level, quietest first. Refused layouts come after all
// others, whatever their level.
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
			all[k].Rows = append(all[k].Rows, Ranked{s.Layouts[i].Name, v.Level, v.Low, v.High, v.Quietest, p.Refused, p.Layout.Wet()})
		}
	}
	for _, r := range all {
		sort.SliceStable(r.Rows, func(a, b int) bool {
			if r.Rows[a].Refused != r.Rows[b].Refused {
				return r.Rows[b].Refused
			}
			return r.Rows[a].Level < r.Rows[b].Level
		})
	}
	return all
}
