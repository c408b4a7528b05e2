// Package draws holds predictions with their doubts: named error terms, what is known of them, and the bands of
// levels and back pressures that follow.
//
// A Model pulls the named error terms out of the predictions; each term is a unit normal that every route with its key
// shares, also between layouts. A Belief says what is known of the terms: nothing but their deviations (Prior), or more
// after readings. Everything else that is done with predictions asks a Model and a Belief.
// Levels are dB, pressures Pa, temperatures K; the same input gives the same bits on any number of cores.
package draws

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Term is one named cause of error: a unit normal variable z that every level with the same Key
// shares. A level moves by SD dB for z = 1.
type Term struct {
	Name   string // source level, element model, directivity, ...
	Key    string // what is shared
	Source string // where the SD comes from, or "judgement"
	Whole  string // the key of the cause that it is a part of; "" = a cause of its own
}

// Of says in words what a term belongs to: its key without its name and without fingerprints.
func (t Term) Of() string {
	var parts []string
	for _, p := range strings.Split(t.Key, "/") {
		if p != t.Name && !mark.MatchString(p) {
			parts = append(parts, p)
		}
	}
	return strings.Join(parts, ", ")
}

// mark is the fingerprint of an element that has no name.
var mark = regexp.MustCompile(`^[0-9a-f]{16}$`)

// Model is a set of predictions with their error terms pulled out: every level is the energy sum
// of routes whose bands are linear in z,
//
//	L = 10 lg sum_r sum_b 10^((L0_rb + sum_k s_rbk z_k + W_rb)/10)
//
// where W is the weighting of what sits in the band of that route,
// and a back pressure is p0 exp(sum_k s_k z_k), so that its median is the prediction and it stays
// positive.
type Model struct {
	Terms   []Term
	Layouts []*Layout
	index   map[string]int
	mixed   []mixture
}

// Layout is one layout with what is heard and the back pressures.
type Layout struct {
	Name      string
	Refused   bool
	Listeners []*Listener
	Exhausts  []*Exhaust
	Boxes     []*Box
}

// Listener is what is heard at one place.
type Listener struct {
	Name   string
	In     string // the space; "" and "outside" are the open air
	limit  *float64
	Routes []*Route
}

// Route is one route: its central bands and its sensitivities by term.
type Route struct {
	Way     path.Way
	Bands   spectrum.Bands
	AWeight spectrum.Bands // of what sits in each band
	Keys    []int
	SD      []spectrum.Bands // dB for z = 1, one per key
}

// Exhaust is the back pressure of one exhaust: medians in Pa, relative sensitivities.
type Exhaust struct {
	Engine            string
	rated, Running    float64
	limit             *float64
	Keys              []int
	SD                []float64
	OutletTemperature float64 // K of the gas at the outlet, running
	Speed             float64 // rpm of the running duty
	TemperatureTerms  []int   // positions in Keys whose term is the temperature
	Feet              path.OnMounts
}

// NewModel pulls the error terms out of the predictions. A level or deviation that is not finite,
// and a negative deviation, are errors.
func NewModel(predictions []path.Prediction) (*Model, error) {
	m := &Model{index: map[string]int{}}
	if len(predictions) == 0 {
		return nil, errors.New("no prediction to study\nhint: the boat file needs at least one layout")
	}
	for i := range predictions {
		l, err := m.LayoutOf(&predictions[i])
		if err != nil {
			return nil, err
		}
		m.Layouts = append(m.Layouts, l)
	}
	return m, nil
}

// LayoutOf turns one prediction into the model's terms; new terms are added to m.Terms.
func (m *Model) LayoutOf(p *path.Prediction) (*Layout, error) {
	l := &Layout{Refused: p.Refused}
	if p.Layout != nil {
		l.Name = p.Layout.Name
	}
	for _, h := range p.Listeners {
		heard := &Listener{Name: h.Listener.Name, In: h.Listener.In, limit: h.Listener.Limit}
		for _, r := range h.Routes {
			route, err := m.route(l.Name, r)
			if err != nil {
				return nil, fmt.Errorf("layout %q, listener %q: %w", l.Name, heard.Name, err)
			}
			heard.Routes = append(heard.Routes, route)
		}
		l.Listeners = append(l.Listeners, heard)
	}
	for i := range p.Exhausts {
		x, err := m.pressure(l.Name, &p.Exhausts[i])
		if err != nil {
			return nil, err
		}
		l.Exhausts = append(l.Exhausts, x)
	}
	return l, m.boxes(l, p)
}

func (m *Model) route(layout string, r path.Route) (*Route, error) {
	for b, v := range r.Bands {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, fmt.Errorf("route %q has no finite level at %g Hz", r.Route, spectrum.Nominal[b])
		}
	}
	many := 0
	for i := range r.Steps {
		many += len(r.Steps[i].Uncertain)
	}
	doubts := make([]path.Uncertain, 0, many)
	for i := range r.Steps {
		s := &r.Steps[i]
		for k := range s.Uncertain {
			if err := checkDeviation(&s.Uncertain[k], r.Route, s.Name); err != nil {
				return nil, err
			}
		}
		doubts = append(doubts, s.Uncertain...)
	}
	out := m.RouteOf(layout, r.Bands, r.Weighted().Minus(r.Bands), doubts)
	out.Way = r.Way
	return out, nil
}

// RouteOf is a route of these bands, and A-weights of what sits in them, that moves with the doubts.
func (m *Model) RouteOf(layout string, bands, aWeight spectrum.Bands, doubts []path.Uncertain) *Route {
	n := 0
	for i := range doubts {
		n += max(1, len(doubts[i].Mix))
	}
	r := &Route{Bands: bands, AWeight: aWeight, Keys: make([]int, 0, n), SD: make([]spectrum.Bands, 0, n)}
	for i := range doubts {
		if doubts[i].SD != (spectrum.Bands{}) {
			m.enter(r, layout, &doubts[i])
		}
	}
	return r
}

// enter enters an error on all the shared causes that it is mixed of.
func (m *Model) enter(r *Route, layout string, u *path.Uncertain) {
	t := Term{Name: u.Term, Key: u.Key, Source: u.Source}
	if len(u.Mix) == 0 {
		r.add(m.term(layout, t), &u.SD)
		return
	}
	for _, c := range m.parts(layout, t, u.Mix) {
		sd := u.SD
		for b := range sd {
			sd[b] *= c.weight
		}
		r.add(c.term, &sd)
	}
}

// weightedTerm is a term with its weight in a cause.
type weightedTerm struct {
	term   int
	weight float64
}

// parts finds or adds the terms that a cause is mixed of: itself where it is not mixed.
func (m *Model) parts(layout string, t Term, mix []silencer.Mixed) (all []weightedTerm) {
	if len(mix) == 0 {
		return []weightedTerm{{m.term(layout, t), 1}}
	}
	part := t
	part.Whole = t.Key
	for _, c := range mix {
		part.Key = c.Key
		all = append(all, weightedTerm{m.term(layout, part), c.Weight})
	}
	m.remember(mixture{t, all})
	return all
}

// mixture is a cause that is mixed of several terms.
type mixture struct {
	Term
	parts []weightedTerm
}

// remember keeps a mixture; one that moves with a known one, to a correlation of 0.99, is the same cause.
func (m *Model) remember(x mixture) {
	for _, o := range m.mixed {
		if o.Key == x.Key && correlation(o.parts, x.parts) > 0.99 {
			return
		}
	}
	m.mixed = append(m.mixed, x)
}

func correlation(a, b []weightedTerm) (correlation float64) {
	for _, p := range a {
		for _, q := range b {
			if p.term == q.term {
				correlation += p.weight * q.weight
			}
		}
	}
	return correlation
}

// Deviations over these say nothing any more and would run out of the numbers.
const (
	mostSD       = 60.0 // dB
	mostRelative = 5.0
)

func checkDeviation(u *path.Uncertain, route, step string) error {
	for b, v := range u.SD {
		if !(v >= 0 && v <= mostSD) {
			return fmt.Errorf("route %q, step %q: the deviation of %q at %g Hz is %g dB: it must lie between 0 and %g",
				route, step, u.Term, spectrum.Nominal[b], v, mostSD)
		}
	}
	return nil
}

// add enters the sensitivity to term k; the same term twice on one route moves twice as far.
func (r *Route) add(k int, sd *spectrum.Bands) {
	if i := slices.Index(r.Keys, k); i >= 0 {
		r.SD[i] = r.SD[i].Plus(*sd)
		return
	}
	r.Keys, r.SD = append(r.Keys, k), append(r.SD, *sd)
}

func (m *Model) pressure(layout string, x *path.ExhaustResult) (*Exhaust, error) {
	p := &Exhaust{Engine: x.Engine, rated: x.Rated.BackPressure, Running: x.Running.BackPressure,
		limit: x.Limit, OutletTemperature: x.Running.OutletTemperature, Speed: x.Source.Duty.Speed, Feet: x.Feet}
	at := map[int]int{}
	for _, t := range x.PressureTerms {
		if !(t.SD >= 0 && t.SD <= mostRelative) {
			return nil, fmt.Errorf("layout %q, exhaust %q: the relative deviation of %q is %g: it must lie between 0 and %g", layout, x.Engine, t.Term, t.SD, mostRelative)
		}
		for _, c := range m.parts(layout, Term{Name: t.Term, Key: t.Key, Source: t.Source}, t.Mix) {
			if i, ok := at[c.term]; ok {
				p.SD[i] += t.SD * c.weight
				continue
			}
			if at[c.term] = len(p.Keys); t.Term == "temperature" {
				p.TemperatureTerms = append(p.TemperatureTerms, len(p.Keys))
			}
			p.Keys, p.SD = append(p.Keys, c.term), append(p.SD, t.SD*c.weight)
		}
	}
	return p, nil
}

// term finds or adds a term. Without a key the cause belongs to the layout alone.
func (m *Model) term(layout string, t Term) int {
	if t.Key == "" {
		t.Key = t.Name + "/" + layout
	}
	if k, ok := m.index[t.Key]; ok {
		return k
	}
	m.index[t.Key] = len(m.Terms)
	m.Terms = append(m.Terms, t)
	return len(m.Terms) - 1
}

// Names gives the names of the layouts in order.
func (m *Model) Names() (names []string) {
	for _, l := range m.Layouts {
		names = append(names, l.Name)
	}
	return names
}

// Find gives the index of a layout and of a listener in it, -1 where there is none.
func (m *Model) Find(layout, listener string) (l, h int) {
	for l, lay := range m.Layouts {
		if lay.Name != layout {
			continue
		}
		for h, heard := range lay.Listeners {
			if heard.Name == listener {
				return l, h
			}
		}
		return l, -1
	}
	return -1, -1
}
