package live

import (
	"reflect"
	"slices"
	"strings"
	"sync"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/study/readings"
	"hushwake/source"
)

// maxHeld bounds the predictions that are kept, beside two for each layout of the file.
const maxHeld = 48

// memo keeps predictions from one text to the next: by the content of the layout, of all else in the boat that a prediction
// hangs on, and by the form. Same content gives the same bits, so that nothing tells a kept prediction from a fresh one.
type memo struct {
	sync.Mutex
	context path.Boat // of what is held: no layouts, readings or words
	session *scene.Session
	boat    *path.Boat          // that the context was last compared with
	priced  []source.Assumption // of the session's boat
	last    []*path.Layout      // of the text before
	held    []held              // oldest use first
	most    int
	misses  int // predictions that were not held
}

// held is a prediction of a layout's content.
type held struct {
	layout  *path.Layout
	assumed []source.Assumption
	form    path.Form
	p       path.Prediction
}

// contextOf is all of a boat that predictions of its layouts hang on, but for the layouts.
func contextOf(b *path.Boat) path.Boat {
	c := *b
	c.File, c.Text, c.Hash, c.Layouts, c.Readings, c.Warnings = "", "", "", nil, nil, nil
	c.Assumptions = priced(b, func(of string) bool { return !strings.HasPrefix(of, layoutPath) })
	return c
}

// layoutPath begins the path of what belongs to a layout.
const layoutPath = "layouts."

// priced are the assumptions by whose exact path predictions find their price.
func priced(b *path.Boat, of func(string) bool) (out []source.Assumption) {
	for _, a := range b.Assumptions {
		if a.Of != "" && of(a.Of) {
			out = append(out, a)
		}
	}
	return out
}

// assumedOf are those of one layout.
func assumedOf(b *path.Boat, l *path.Layout) []source.Assumption {
	return priced(b, func(of string) bool { return strings.HasPrefix(of, layoutPath+l.Base+".") })
}

// adopt puts layouts, and parts of them, that are as before in the place of equal ones of a boat, so that what is kept for
// them by their address is found.
func (m *memo) adopt(b *path.Boat) {
	m.Lock()
	defer m.Unlock()
	m.most = maxHeld + 2*len(b.Layouts)
	for i, l := range b.Layouts {
		at := slices.IndexFunc(m.last, func(was *path.Layout) bool { return was.Name == l.Name && sameLayout(was, l) })
		if at >= 0 && l.Slots == nil {
			b.Layouts[i] = m.last[at]
			continue
		}
		for _, was := range m.last {
			l.Engines, l.Enclosures = kept(was.Engines, l.Engines), kept(was.Enclosures, l.Enclosures)
			l.Spaces, l.Partitions = kept(was.Spaces, l.Spaces), kept(was.Partitions, l.Partitions)
		}
	}
	m.last = slices.Clone(b.Layouts)
}

// kept is the list of before where it is equal.
func kept[T any](was, is []T) []T {
	if len(was) > 0 && len(was) == len(is) && (&was[0] == &is[0] || reflect.DeepEqual(was, is)) {
		return was
	}
	return is
}

// sameLayout compares all that a prediction can see: of open slots the function that fills them makes no difference.
func sameLayout(a, b *path.Layout) bool {
	if a == b {
		return true
	}
	if (a.Slots == nil) != (b.Slots == nil) {
		return false
	}
	x, y := *a, *b
	if x.Slots != nil {
		if !reflect.DeepEqual(x.Slots.Slots, y.Slots.Slots) || !reflect.DeepEqual(x.Slots.Left, y.Slots.Left) {
			return false
		}
		x.Slots, y.Slots = nil, nil
	}
	return reflect.DeepEqual(&x, &y)
}

// Session is that of before as long as nothing but layouts, readings and words changed.
func (m *memo) Session(b *path.Boat) *scene.Session {
	m.Lock()
	defer m.Unlock()
	if b == m.boat {
		return m.session
	}
	m.boat = b
	all := priced(b, func(string) bool { return true })
	if c := contextOf(b); m.session == nil || !reflect.DeepEqual(c, m.context) {
		m.context, m.held, m.session = c, nil, nil
	}
	if m.session == nil || !reflect.DeepEqual(all, m.priced) {
		m.session, m.priced = scene.NewSession(b), all
	}
	return m.session
}

// find gives a held prediction, as one of the layout asked about. The memo is locked.
func (m *memo) find(b *path.Boat, l *path.Layout, form path.Form) (path.Prediction, bool) {
	at := slices.IndexFunc(m.held, func(h held) bool {
		return h.form == form && h.layout.Name == l.Name && sameLayout(h.layout, l) && reflect.DeepEqual(h.assumed, assumedOf(b, l))
	})
	if at < 0 {
		return path.Prediction{}, false
	}
	h := m.held[at]
	m.held = append(slices.Delete(m.held, at, at+1), h)
	h.p.Layout = l
	return h.p, true
}

// holds tells whether a prediction is kept.
func (m *memo) holds(b *path.Boat, l *path.Layout, form path.Form) bool {
	m.Session(b)
	m.Lock()
	defer m.Unlock()
	_, ok := m.find(b, l, form)
	return ok
}

// Predict works a layout out once.
func (m *memo) Predict(b *path.Boat, l *path.Layout, form path.Form) (path.Prediction, error) {
	n := m.Session(b)
	m.Lock()
	p, ok := m.find(b, l, form)
	m.Unlock()
	if ok {
		return p, nil
	}
	p, err := readings.Work(n, b, l, form)
	m.Lock()
	defer m.Unlock()
	if m.misses++; err == nil {
		m.held = append(m.held[max(0, len(m.held)+1-m.most):], held{l, assumedOf(b, l), form, p})
	}
	return p, err
}
