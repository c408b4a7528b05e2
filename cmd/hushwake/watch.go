package main

import (
	"slices"
	"sync"

	"hushwake/path"
	"hushwake/path/report"
)

// watch sees every prediction of a long run: it tells on stderr how far it is, and keeps the
// warnings of each layout.
type watch struct {
	c       *common
	layouts []*path.Layout

	sync.Mutex
	done, total int
	seen        map[string][]string // warnings by layout
}

func (w *watch) see(p path.Prediction) {
	w.Lock()
	defer w.Unlock()
	w.done++
	if w.total > 40 && 10*w.done/w.total != 10*(w.done-1)/w.total {
		w.c.remark("predicted %d of %d", w.done, w.total)
	}
	w.seen[p.Layout.Name] = append(w.seen[p.Layout.Name], p.Warnings...)
}

// warnings are what was warned of at any speed, those of one wording together.
func (w *watch) warnings(b *path.Boat) []string {
	all := &report.Comparison{Boat: b}
	for _, l := range w.layouts {
		all.Predictions = append(all.Predictions, path.Prediction{Layout: l, Warnings: slices.Compact(slices.Sorted(slices.Values(w.seen[l.Name])))})
	}
	return all.Warnings(w.c.inUnits())
}
