package main

import (
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"

	"hushwake/path"
	"hushwake/path/study/advice"
	"hushwake/path/study/draws"
)

// worked is a boat with all its layouts predicted and their bands drawn.
type worked struct {
	boat        *path.Boat
	predictions []path.Prediction
	model       *draws.Model
	spread      draws.Spread
	listener    int               // the one that tables are ordered by
	front       []advice.Tradeoff // see fronts
}

// selection narrows what is worked out; empty means all.
type selection struct {
	layouts, listeners []string
	listener           string // orders the tables
	draws              draws.Options
}

// work predicts the selected layouts and draws their uncertainty.
func work(b *path.Boat, sel selection) (*worked, error) {
	if len(b.Layouts) == 0 {
		return nil, noLayouts(b)
	}
	if len(b.Listeners) == 0 {
		return nil, noListeners(b)
	}
	if sel.draws.N < 0 {
		return nil, badInput("--draws %d: a number of draws is wanted\nhint: %d is the default", sel.draws.N, draws.DefaultNumber)
	}
	layouts, err := chooseLayouts(b, sel.layouts)
	if err != nil {
		return nil, err
	}
	if err := chooseListeners(b, sel.listeners); err != nil {
		return nil, err
	}
	w := &worked{boat: b}
	if w.listener, err = listenerIndex(b, sel.listener); err != nil {
		return nil, err
	}
	if w.predictions, err = predictAll(b, layouts); err != nil {
		return nil, err
	}
	if w.model, err = draws.NewModel(w.predictions); err != nil {
		return nil, failed("%w", err)
	}
	w.spread, err = w.model.MonteCarlo(w.model.Prior(), sel.draws)
	if err != nil {
		return nil, failed("%w", err)
	}
	return w, nil
}

// predictAll predicts layouts side by side; the result is in their order.
func predictAll(b *path.Boat, layouts []*path.Layout) ([]path.Prediction, error) {
	out := make([]path.Prediction, len(layouts))
	errs := make([]error, len(layouts))
	sideBySide(len(layouts), func(i int) {
		if out[i], errs[i] = path.Predict(b, layouts[i]); errs[i] == nil {
			errs[i] = path.PassBy(b, &out[i])
		}
	})
	for _, err := range errs {
		if err != nil {
			return nil, badInput("%w", err)
		}
	}
	return out, nil
}

// sideBySide runs do for 0 to n-1 on as many threads as there are processors.
func sideBySide(n int, do func(i int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	wait.Wait()
}

// chooseLayouts gives the named layouts, or all.
func chooseLayouts(b *path.Boat, names []string) ([]*path.Layout, error) {
	if len(names) == 0 {
		return b.Layouts, nil
	}
	var out []*path.Layout
	for _, name := range names {
		l, err := chooseLayout(b, name)
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	return out, nil
}

func noLayouts(b *path.Boat) error {
	return badInput("%s holds no layouts\nhint: add a layouts section; 'hushwake start dry-stack' shows one", b.File)
}

func noListeners(b *path.Boat) error {
	if b.Bench != nil {
		return badInput("%s is a bench file: nobody listens there\nhint: 'hushwake line %s' shows its loss", b.File, b.File)
	}
	return badInput("%s holds no listeners\nhint: add where people hear, with in and at", b.File)
}

// chooseLayout finds a layout by its name or by its 1-based place in the file; the first where none
// is named.
func chooseLayout(b *path.Boat, name string) (*path.Layout, error) {
	if len(b.Layouts) == 0 {
		return nil, noLayouts(b)
	}
	if name == "" {
		return b.Layouts[0], nil
	}
	if l, ok := b.Layout(name); ok {
		return l, nil
	}
	if i, ok := index(name, len(b.Layouts)); ok {
		return b.Layouts[i], nil
	}
	names := make([]string, len(b.Layouts))
	for i, l := range b.Layouts {
		names[i] = l.Name
	}
	return nil, unknown("layout", name, names)
}

// chooseListeners keeps only the named listeners of the boat, in file order.
func chooseListeners(b *path.Boat, names []string) error {
	if len(names) == 0 {
		return nil
	}
	keep := map[int]bool{}
	for _, name := range names {
		i, err := listenerIndex(b, name)
		if err != nil {
			return err
		}
		keep[i] = true
	}
	kept := make([]path.Listener, 0, len(keep))
	for i, l := range b.Listeners {
		if keep[i] {
			kept = append(kept, l)
		}
	}
	b.Listeners = kept
	return nil
}

// listenerIndex finds a listener by name; the first one where none is named.
func listenerIndex(b *path.Boat, name string) (int, error) {
	if len(b.Listeners) == 0 {
		return 0, noListeners(b)
	}
	if name == "" {
		return 0, nil
	}
	names := make([]string, len(b.Listeners))
	for i, l := range b.Listeners {
		if l.Name == name {
			return i, nil
		}
		names[i] = l.Name
	}
	return 0, unknown("listener", name, names)
}

// index reads a 1-based place.
func index(text string, n int) (int, bool) {
	var i int
	if _, err := fmt.Sscanf(text, "%d", &i); err != nil || fmt.Sprint(i) != text || i < 1 || i > n {
		return 0, false
	}
	return i - 1, true
}
