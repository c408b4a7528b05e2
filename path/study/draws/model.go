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

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Stood is how one engine stands.
type Stood struct {
	engine string
	feet   path.OnMounts
}

func (l *Layout) FeetOf(engine string) path.OnMounts {
	for _, f := range l.feet {
		if f.engine == engine {
			return f.feet
		}
	}
	return path.OnMounts{}
}

// Apart is what a seat hears by all other ways, and through mounts and hull.
func (h *Listener) Apart() (air, borne *Listener) {
	air, borne = &Listener{}, &Listener{}
	for _, r := range h.Routes {
		if r.Way == path.ByStructure {
			borne.Routes = append(borne.Routes, r)
		} else {
			air.Routes = append(air.Routes, r)
		}
	}
	return air, borne
}

// Listener finds what is heard at a place; nil where there is none.
func (l *Layout) Listener(name string) *Listener {
	for _, h := range l.Listeners {
		if h.Name == name {
			return h
		}
	}
	return nil
}

// Term is one named cause of error: a unit normal variable z that every level with the same Key
// shares. A level moves by SD dB for z = 1.
type Term struct {
	Name   string // source level, element model, directivity, ...
	Key    string // what is shared
	Source string // where the SD comes from, or "judgement"
	Whole  string // the key of the cause that it is a part of; "" = a cause of its own
}

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

type Layout struct {
	Name      string
	Refused   bool
	Listeners []*Listener
	Exhausts  []*Exhaust
	feet      []Stood
}

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
	Engine         string
	rated, Running float64
	limit          *float64
	Keys           []int
	SD             []float64
	Gas            float64 // K of the gas at the outlet, running
	Speed          float64 // rpm of the running duty
	Heat           []int   // positions in keys whose term is the temperature
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
		l.feet = append(l.feet, Stood{x.Engine, p.Exhausts[i].Feet})
	}
	return l, nil
}

func (m *Model) route(layout string, r path.Route) (*Route, error) {
	out := &Route{Way: r.Way, Bands: r.Bands, AWeight: r.Weighted().Minus(r.Bands)}
	for b, v := range r.Bands {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, fmt.Errorf("route %q has no finite level at %g Hz", r.Route, spectrum.Nominal[b])
		}
	}
	at := map[int]int{}
	for _, s := range r.Steps {
		for _, u := range s.Uncertain {
			if err := checkDeviation(u, r.Route, s.Name); err != nil {
				return nil, err
			}
			if u.SD == (spectrum.Bands{}) {
				continue
			}
			m.Enter(out, at, layout, u)
		}
	}
	return out, nil
}

// Enter enters an error on all the shared causes that it is mixed of.
func (m *Model) Enter(r *Route, at map[int]int, layout string, u path.Uncertain) {
	for _, c := range m.parts(layout, Term{Name: u.Term, Key: u.Key, Source: u.Source}, u.Mix) {
		sd := u.SD
		for b := range sd {
			sd[b] *= c.weight
		}
		r.add(at, c.term, sd)
	}
}

// partOf is a term with its weight in a cause.
type partOf struct {
	term   int
	weight float64
}

// parts finds or adds the terms that a cause is mixed of: itself where it is not mixed.
func (m *Model) parts(layout string, t Term, mix []silencer.Mixed) (all []partOf) {
	if len(mix) == 0 {
		return []partOf{{m.term(layout, t), 1}}
	}
	part := t
	part.Whole = t.Key
	for _, c := range mix {
		part.Key = c.Key
		all = append(all, partOf{m.term(layout, part), c.Weight})
	}
	m.remember(mixture{t, all})
	return all
}

// mixture is a cause that is mixed of several terms.
type mixture struct {
	Term
	parts []partOf
}

// remember keeps a mixture; one that moves with a known one, to a correlation of 0.99, is the same cause.
func (m *Model) remember(x mixture) {
	for _, o := range m.mixed {
		if o.Key == x.Key && together(o.parts, x.parts) > 0.99 {
			return
		}
	}
	m.mixed = append(m.mixed, x)
}

func together(a, b []partOf) (correlation float64) {
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
	MostSD       = 60.0 // dB
	mostRelative = 5.0
)

func checkDeviation(u path.Uncertain, route, step string) error {
	for b, v := range u.SD {
		if !(v >= 0 && v <= MostSD) {
			return fmt.Errorf("route %q, step %q: the deviation of %q at %g Hz is %g dB: it must lie between 0 and %g",
				route, step, u.Term, spectrum.Nominal[b], v, MostSD)
		}
	}
	return nil
}

// add enters the sensitivity to term k; the same term twice on one route moves twice as far.
func (r *Route) add(at map[int]int, k int, sd spectrum.Bands) {
	if i, ok := at[k]; ok {
		r.SD[i] = r.SD[i].Plus(sd)
		return
	}
	at[k] = len(r.Keys)
	r.Keys, r.SD = append(r.Keys, k), append(r.SD, sd)
}

func (m *Model) pressure(layout string, x *path.ExhaustResult) (*Exhaust, error) {
	p := &Exhaust{Engine: x.Engine, rated: x.Rated.BackPressure, Running: x.Running.BackPressure,
		limit: x.Limit, Gas: x.Running.OutletTemperature, Speed: x.Source.Duty.Speed}
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
				p.Heat = append(p.Heat, len(p.Keys))
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

// At gives the bands of the route for the term values z; terms beyond z count as 0.
func (r *Route) At(z []float64) spectrum.Bands {
	b := r.Bands
	for i, k := range r.Keys {
		if k >= len(z) || z[k] == 0 {
			continue
		}
		for j := range b {
			b[j] += r.SD[i][j] * z[k]
		}
	}
	return b
}

// Bands is the energy sum of the routes at z, band by band, in dB.
func (h *Listener) Bands(z []float64) spectrum.Bands {
	all := make([]spectrum.Bands, 0, len(h.Routes))
	for _, r := range h.Routes {
		all = append(all, r.At(z))
	}
	return spectrum.SumBands(all...)
}

// Weighed gives the route's bands at z with weighting w; A is that of the route's own orders.
func (r *Route) Weighed(z []float64, w spectrum.Bands) spectrum.Bands {
	if w == spectrum.A {
		w = r.AWeight
	}
	return r.At(z).Plus(w)
}

// Level is the level at z with weighting w, in dB.
func (h *Listener) Level(z []float64, w spectrum.Bands) float64 {
	all := make([]spectrum.Bands, len(h.Routes))
	for i, r := range h.Routes {
		all[i] = r.Weighed(z, w)
	}
	return spectrum.SumBands(all...).Total()
}

// Gradient is dL/dz for weighting w, over n terms: the energy-weighted mean sensitivity.
func (h *Listener) Gradient(z []float64, w spectrum.Bands, n int) []float64 {
	g, sum := make([]float64, n), 0.0
	for _, r := range h.Routes {
		for j, v := range r.Weighed(z, w) {
			e := spectrum.Power(v)
			sum += e
			for i, k := range r.Keys {
				g[k] += e * r.SD[i][j]
			}
		}
	}
	if sum == 0 {
		return make([]float64, n)
	}
	for k := range g {
		g[k] /= sum
	}
	return g
}

// OnlyBand is a weighting that lets band j through alone.
func OnlyBand(j int) spectrum.Bands {
	w := spectrum.Fill(2 * spectrum.Silent)
	w[j] = 0
	return w
}

// Factor is the ratio of the back pressure at z to its median.
func (p *Exhaust) Factor(z []float64) float64 {
	s := 0.0
	for i, k := range p.Keys {
		if k < len(z) {
			s += p.SD[i] * z[k]
		}
	}
	return math.Exp(s)
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

func (p *Exhaust) Gradient(n int) []float64 {
	g := make([]float64, n)
	for i, k := range p.Keys {
		g[k] += p.SD[i]
	}
	return g
}
