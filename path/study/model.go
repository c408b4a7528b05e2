package study

import (
	"errors"
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// Term is one named cause of error: a unit normal variable z that every level with the same Key
// shares. A level moves by SD dB for z = 1.
type Term struct {
	Name   string // source level, element model, directivity, ...
	Key    string // what is shared
	Source string // where the SD comes from, or "judgement"
}

// Model is a set of predictions with their error terms pulled out: every level is the energy sum
// of routes whose bands are linear in z,
//
//	L = 10 lg sum_r sum_b 10^((L0_rb + sum_k s_rbk z_k + W_b)/10)
//
// and a back pressure is p0 exp(sum_k s_k z_k), so that its median is the prediction and it stays
// positive.
type Model struct {
	Terms   []Term
	layouts []*layoutModel
	index   map[string]int
}

type layoutModel struct {
	name      string
	refused   bool
	heard     []*heardModel
	pressures []*pressureModel
}

type heardModel struct {
	listener string
	in       string // the space; "" and "outside" are the open air
	limit    *float64
	routes   []*routeModel
}

// routeModel is one route: its central bands and its sensitivities by term.
type routeModel struct {
	way   path.Way
	bands spectrum.Bands
	keys  []int
	sd    []spectrum.Bands // dB for z = 1, one per key
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
	}
	return l, nil
}

func (m *Model) route(layout string, r path.Route) (*routeModel, error) {
	out := &routeModel{way: r.Way, bands: r.Bands}
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
			m.enter(out, at, layout, u)
		}
	}
	return out, nil
}

// enter adds a doubt to a route, each of its causes by its weight.
func (m *Model) enter(r *routeModel, at map[int]int, layout string, u path.Uncertain) {
	if u.Mix == nil {
		r.add(at, m.term(layout, u.Term, u.Key, u.Source), u.SD)
	}
	for _, x := range u.Mix {
		sd := u.SD
		for i := range sd {
			sd[i] *= x.Weight
		}
		if sd != (spectrum.Bands{}) {
			r.add(at, m.term(layout, u.Term, x.Key, u.Source), sd)
		}
	}
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
		k := m.term(layout, t.Term, t.Key, t.Source)
		if i, ok := at[k]; ok {
			p.sd[i] += t.SD
			continue
		}
		if at[k] = len(p.keys); t.Term == "temperature" {
			p.heat = append(p.heat, len(p.keys))
		}
		p.keys, p.sd = append(p.keys, k), append(p.sd, t.SD)
	}
	return p, nil
}

// term finds or adds the term of a key. Without a key the cause belongs to the layout alone.
func (m *Model) term(layout, name, key, source string) int {
	if key == "" {
		key = name + "/" + layout
	}
	if k, ok := m.index[key]; ok {
		return k
	}
	m.index[key] = len(m.Terms)
	m.Terms = append(m.Terms, Term{Name: name, Key: key, Source: source})
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

// level is the level at z with weighting w, in dB.
func (h *heardModel) level(z []float64, w spectrum.Bands) float64 {
	return h.bands(z).Plus(w).Total()
}

// gradient is dL/dz for weighting w, over n terms: the energy-weighted mean sensitivity.
func (h *heardModel) gradient(z []float64, w spectrum.Bands, n int) []float64 {
	g, sum := make([]float64, n), 0.0
	for _, r := range h.routes {
		b := r.at(z).Plus(w)
		for j, v := range b {
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
