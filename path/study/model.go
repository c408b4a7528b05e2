package study

import (
	"errors"
	"fmt"
	"math"

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
	layouts []*layoutModel
	index   map[string]int
	mixed   []mixture
}

type layoutModel struct {
	name      string
	refused   bool
	heard     []*heardModel
	pressures []*pressureModel
	feet      []feetModel
}

type heardModel struct {
	listener string
	in       string // the space; "" and "outside" are the open air
	limit    *float64
	routes   []*routeModel
}

// routeModel is one route: its central bands and its sensitivities by term.
type routeModel struct {
	way     path.Way
	bands   spectrum.Bands
	aWeight spectrum.Bands // of what sits in each band
	keys    []int
	sd      []spectrum.Bands // dB for z = 1, one per key
}

// pressureModel is the back pressure of one exhaust: medians in Pa, relative sensitivities.
type pressureModel struct {
	engine         string
	rated, running float64
	limit          *float64
	keys           []int
	sd             []float64
	gas            float64 // K of the gas at the outlet, running
	speed          float64 // rpm of the running duty
	heat           []int   // positions in keys whose term is the temperature
}

// NewModel pulls the error terms out of the predictions. A level or deviation that is not finite,
// and a negative deviation, are errors.
func NewModel(predictions []path.Prediction) (*Model, error) {
	m := &Model{index: map[string]int{}}
	if len(predictions) == 0 {
		return nil, errors.New("no prediction to study\nhint: the boat file needs at least one layout")
	}
	for i := range predictions {
		l, err := m.layout(&predictions[i])
		if err != nil {
			return nil, err
		}
		m.layouts = append(m.layouts, l)
	}
	return m, nil
}

// layout turns one prediction into the model's terms; new terms are added to m.Terms.
func (m *Model) layout(p *path.Prediction) (*layoutModel, error) {
	l := &layoutModel{refused: p.Refused}
	if p.Layout != nil {
		l.name = p.Layout.Name
	}
	for _, h := range p.Listeners {
		heard := &heardModel{listener: h.Listener.Name, in: h.Listener.In, limit: h.Listener.Limit}
		for _, r := range h.Routes {
			route, err := m.route(l.name, r)
			if err != nil {
				return nil, fmt.Errorf("layout %q, listener %q: %w", l.name, heard.listener, err)
			}
			heard.routes = append(heard.routes, route)
		}
		l.heard = append(l.heard, heard)
	}
	for i := range p.Exhausts {
		x, err := m.pressure(l.name, &p.Exhausts[i])
		if err != nil {
			return nil, err
		}
		l.pressures = append(l.pressures, x)
		l.feet = append(l.feet, feetModel{x.engine, p.Exhausts[i].Feet})
	}
	return l, nil
}

func (m *Model) route(layout string, r path.Route) (*routeModel, error) {
	out := &routeModel{way: r.Way, bands: r.Bands, aWeight: r.Weighted().Minus(r.Bands)}
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
			m.spread(out, at, layout, u)
		}
	}
	return out, nil
}

// spread enters an error on all the shared causes that it is mixed of.
func (m *Model) spread(r *routeModel, at map[int]int, layout string, u path.Uncertain) {
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
	mostSD       = 60.0 // dB
	mostRelative = 5.0
)

func checkDeviation(u path.Uncertain, route, step string) error {
	for b, v := range u.SD {
		if !(v >= 0 && v <= mostSD) {
			return fmt.Errorf("route %q, step %q: the deviation of %q at %g Hz is %g dB: it must lie between 0 and %g",
				route, step, u.Term, spectrum.Nominal[b], v, mostSD)
		}
	}
	return nil
}

// add enters the sensitivity to term k; the same term twice on one route moves twice as far.
func (r *routeModel) add(at map[int]int, k int, sd spectrum.Bands) {
	if i, ok := at[k]; ok {
		r.sd[i] = r.sd[i].Plus(sd)
		return
	}
	at[k] = len(r.keys)
	r.keys, r.sd = append(r.keys, k), append(r.sd, sd)
}

func (m *Model) pressure(layout string, x *path.ExhaustResult) (*pressureModel, error) {
	p := &pressureModel{engine: x.Engine, rated: x.Rated.BackPressure, running: x.Running.BackPressure,
		limit: x.Limit, gas: x.Running.OutletTemperature, speed: x.Source.Duty.Speed}
	at := map[int]int{}
	for _, t := range x.PressureTerms {
		if !(t.SD >= 0 && t.SD <= mostRelative) {
			return nil, fmt.Errorf("layout %q, exhaust %q: the relative deviation of %q is %g: it must lie between 0 and %g", layout, x.Engine, t.Term, t.SD, mostRelative)
		}
		for _, c := range m.parts(layout, Term{Name: t.Term, Key: t.Key, Source: t.Source}, t.Mix) {
			if i, ok := at[c.term]; ok {
				p.sd[i] += t.SD * c.weight
				continue
			}
			if at[c.term] = len(p.keys); t.Term == "temperature" {
				p.heat = append(p.heat, len(p.keys))
			}
			p.keys, p.sd = append(p.keys, c.term), append(p.sd, t.SD*c.weight)
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

// Layouts gives the names of the layouts in order.
func (m *Model) Layouts() (names []string) {
	for _, l := range m.layouts {
		names = append(names, l.name)
	}
	return names
}

// at gives the bands of the route for the term values z; terms beyond z count as 0.
func (r *routeModel) at(z []float64) spectrum.Bands {
	b := r.bands
	for i, k := range r.keys {
		if k >= len(z) || z[k] == 0 {
			continue
		}
		for j := range b {
			b[j] += r.sd[i][j] * z[k]
		}
	}
	return b
}

// bands is the energy sum of the routes at z, band by band, in dB.
func (h *heardModel) bands(z []float64) spectrum.Bands {
	all := make([]spectrum.Bands, 0, len(h.routes))
	for _, r := range h.routes {
		all = append(all, r.at(z))
	}
	return spectrum.SumBands(all...)
}

// weighed gives the route's bands at z with weighting w; A is that of the route's own orders.
func (r *routeModel) weighed(z []float64, w spectrum.Bands) spectrum.Bands {
	if w == spectrum.A {
		w = r.aWeight
	}
	return r.at(z).Plus(w)
}

// level is the level at z with weighting w, in dB.
func (h *heardModel) level(z []float64, w spectrum.Bands) float64 {
	all := make([]spectrum.Bands, len(h.routes))
	for i, r := range h.routes {
		all[i] = r.weighed(z, w)
	}
	return spectrum.SumBands(all...).Total()
}

// gradient is dL/dz for weighting w, over n terms: the energy-weighted mean sensitivity.
func (h *heardModel) gradient(z []float64, w spectrum.Bands, n int) []float64 {
	g, sum := make([]float64, n), 0.0
	for _, r := range h.routes {
		for j, v := range r.weighed(z, w) {
			e := spectrum.Power(v)
			sum += e
			for i, k := range r.keys {
				g[k] += e * r.sd[i][j]
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

// only is a weighting that lets band j through alone.
func only(j int) spectrum.Bands {
	w := spectrum.Fill(2 * spectrum.Silent)
	w[j] = 0
	return w
}

// factor is the ratio of the back pressure at z to its median.
func (p *pressureModel) factor(z []float64) float64 {
	s := 0.0
	for i, k := range p.keys {
		if k < len(z) {
			s += p.sd[i] * z[k]
		}
	}
	return math.Exp(s)
}

// find gives the index of a layout and of a listener in it, -1 where there is none.
func (m *Model) find(layout, listener string) (l, h int) {
	for l, lay := range m.layouts {
		if lay.name != layout {
			continue
		}
		for h, heard := range lay.heard {
			if heard.listener == listener {
				return l, h
			}
		}
		return l, -1
	}
	return -1, -1
}
