package main

import (
	"slices"
	"sync"

	"hushwake/path"
)

// watch sees every prediction of a long run: it tells on stderr how far it is, and keeps the
// warnings of each layout.
type watch struct {
	c       *common
	layouts []*path.Layout

	sync.Mutex
	done, total int
	warnings    map[string][]string // by layout
}

func (w *watch) see(p path.Prediction) {
	w.Lock()
	defer w.Unlock()
	w.done++
	if w.total > 40 && 10*w.done/w.total != 10*(w.done-1)/w.total {
		w.c.remark("predicted %d of %d", w.done, w.total)
	}
	w.warnings[p.Layout.Name] = append(w.warnings[p.Layout.Name], p.Warnings...)
}

// warn prints what was warned of at any speed, those of one wording together.
func (w *watch) warn(b *path.Boat) {
	all := &worked{boat: b}
	for _, l := range w.layouts {
		all.predictions = append(all.predictions, path.Prediction{Layout: l, Warnings: slices.Compact(slices.Sorted(slices.Values(w.warnings[l.Name])))})
	}
	w.c.warn(all)
}
