package readings

import (
	"slices"
	"sync"

	"hushwake/path"
)

// Point is a layout at a duty that it is swept over, heard at the listeners of a boat that holds it.
type Point struct {
	Boat   *path.Boat
	Layout *path.Layout
	At     float64 // rpm, or share of rated power
}

// foreseen are points promised before anybody asks for them.
type foreseen struct {
	sync.Mutex
	next    []Point
	promise map[Point]func() (path.Prediction, error)
}

// Foresee promises points; what it returns works them out one after the other but for those asked for meanwhile. What is
// worked out ahead is what predict gives at any time: nothing but time hangs on it.
func (k *Known) Foresee(all []Point, predict func(Point) (path.Prediction, error)) (work func()) {
	f := &k.foreseen
	f.Lock()
	defer f.Unlock()
	f.next, f.promise = all, map[Point]func() (path.Prediction, error){}
	for _, p := range all {
		f.promise[p] = sync.OnceValues(func() (path.Prediction, error) { return predict(p) })
	}
	return func() {
		for p, ok := f.more(); ok; p, ok = f.more() {
			p() // an error comes back when it is asked for
		}
	}
}

// more is the next promise that nobody asked for.
func (f *foreseen) more() (promise func() (path.Prediction, error), ok bool) {
	f.Lock()
	defer f.Unlock()
	for len(f.next) > 0 && !ok {
		promise, ok = f.promise[f.next[0]]
		f.next = f.next[1:]
	}
	return promise, ok
}

// Foreseen gives a promise away, to be asked for or done by now; nil where the point was not foreseen.
func (k *Known) Foreseen(p Point) func() (path.Prediction, error) {
	f := &k.foreseen
	f.Lock()
	defer f.Unlock()
	promise := f.promise[p]
	delete(f.promise, p)
	return promise
}

// Only keeps the promises of some layouts: nobody will ask for those of the rest.
func (k *Known) Only(layouts []*path.Layout) {
	f := &k.foreseen
	f.Lock()
	defer f.Unlock()
	for p := range f.promise {
		if !slices.Contains(layouts, p.Layout) {
			delete(f.promise, p)
		}
	}
}
