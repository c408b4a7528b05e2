package draws

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/floats"

	"hushwake/path"
	"hushwake/source/cores"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Names of the steps that lead from the central values to the middle of the draws.
const (
	StepReadings = "adjusted by your readings"
	stepMiddle   = "middle of the draws"
)

// Middle gives a prediction at the middle of the draws: every level in dB(A) is the median, and the
// routes are what they bring, as energy, in the draws whose level lies in the middle tenth, so that
// they add up to it. Where routes of their own doubt add up the median lies over the sum of central
// values. Steps say what the readings moved and what the middle adds, so that steps still add up to
// routes. Back pressures and the air in boxes are at their median.
func (e *Ensemble) Middle(p path.Prediction) (path.Prediction, error) {
	m, err := NewModel([]path.Prediction{p})
	if err != nil {
		return p, err
	}
	return m.Middles([]path.Prediction{p}, m.Run(e))[0], nil
}

// Middles is Middle for the predictions that the model was made of, by a sample of it.
func (m *Model) Middles(all []path.Prediction, s Sample) []path.Prediction {
	z, mean := s.of.Terms(m), s.of.Means(m)
	out := make([]path.Prediction, len(all))
	cores.Each(len(all), func(i int) {
		p := all[i]
		p.Listeners = nil
		for j, h := range all[i].Listeners {
			p.Listeners = append(p.Listeners, m.Layouts[i].Listeners[j].middle(h, z, mean, s.Levels[i][j], s.entered(i, j)))
		}
		if s.of.Moved {
			p.Exhausts = append([]path.ExhaustResult(nil), p.Exhausts...)
			for j := range p.Exhausts {
				x := &p.Exhausts[j]
				*x = x.WithPressure(Quantile(s.Factors[i][j], 0.5))
				if x.Box != nil {
					box := m.Layouts[i].Box(x.Box.Sound.Name).middle(*x.Box, z, mean)
					x.Box = &box
				}
			}
		}
		out[i] = p
	})
	return out
}

// middle moves the routes of one place.
func (l *Listener) middle(h path.Heard, z [][]float64, mean, levels []float64, by entered) path.Heard {
	if len(h.Routes) == 0 {
		return h
	}
	h.Routes = append([]path.Route(nil), h.Routes...)
	q := quantiles(levels, 0.5, 0.45, 0.55)
	near := within(levels, q[1], q[2])
	to, weighted := l.meanEnergies(z, near, by), make([]spectrum.Bands, len(h.Routes))
	for i, r := range l.Routes {
		weighted[i] = to[i].Plus(r.AWeight)
	}
	rest := q[0] - spectrum.SumBands(weighted...).Total()
	for i, r := range l.Routes {
		to[i] = to[i].Shift(rest)
		h.Routes[i] = moveRoute(h.Routes[i], r.At(mean), to[i])
	}
	h.Bands = spectrum.SumBands(to...)
	sort.SliceStable(h.Routes, func(a, c int) bool { return h.Routes[a].DBA() > h.Routes[c].DBA() })
	return h
}

// within lists the draws whose level lies from low to high.
func within(levels []float64, low, high float64) (at []int) {
	for d, v := range levels {
		if low <= v && v <= high {
			at = append(at, d)
		}
	}
	return at
}

// entered is what a plan takes of a place; without a plan it makes one for the place alone.
type entered struct {
	*plan
	bundles  []bundle
	listener int
}

// entered is what the sample's plan takes of a listener of a layout.
func (s Sample) entered(layout, listener int) entered {
	if s.plan == nil {
		return entered{}
	}
	return entered{s.plan, s.plan.entered[layout], listener}
}

// wanted are the mixes and columns of a place, in that order.
func (n entered) wanted() []bool {
	out := make([]bool, len(n.mixes)+len(n.columns))
	want := func(column int) {
		out[len(n.mixes)+column] = true
		for _, k := range n.columns[column].keys {
			if k >= n.terms {
				out[k-n.terms] = true
			}
		}
	}
	for i := range n.bundles {
		b := &n.bundles[i]
		for k := range b.routes {
			for band, column := range b.routes[k].rest {
				if b.routes[k].listener == n.listener {
					want(column)
					want(b.common[band])
				}
			}
		}
	}
	return out
}

// meanEnergies are the mean of the bands of each route as energy over some draws, dB.
func (l *Listener) meanEnergies(z [][]float64, of []int, by entered) []spectrum.Bands {
	w := spare.Get().(*buffers)
	defer spare.Put(w)
	out, near := make([]spectrum.Bands, len(l.Routes)), make([][]float64, len(z))
	w.used = 0
	for _, r := range l.Routes {
		for _, k := range r.Keys {
			if near[k] == nil {
				near[k] = w.some(z[k], of)
			}
		}
	}
	if by.plan == nil {
		p, asked := newPlan(near, 0), []Question{{l, spectrum.Bands{}}}
		by = entered{p, p.sorted(asked), 0}
		p.number(by.bundles, p.most.shares(asked))
	}
	wanted := by.wanted()
	for from := 0; from < len(of); from += chunk {
		w.fill(by.plan, near, from, min(from+chunk, len(of)), wanted)
		for _, b := range by.bundles {
			for _, r := range b.routes {
				if r.listener != by.listener {
					continue
				}
				for band := range r.rest {
					out[r.route][band] += floats.Dot(w.columns[b.common[band]], w.columns[r.rest[band]])
				}
			}
		}
	}
	for i, r := range l.Routes {
		for b, e := range out[i] {
			out[i][b] = r.Bands[b] + spectrum.Level(e/float64(len(of)))
		}
	}
	return out
}

// moveRoute adds the steps from the central bands to those at the middle.
func moveRoute(r path.Route, read, to spectrum.Bands) path.Route {
	steps := append(make([]path.Step, 0, len(r.Steps)+2), r.Steps...)
	if move := read.Minus(r.Bands); !negligible(move) {
		steps = append(steps, path.Step{Name: StepReadings, Cited: published.By("mean of the route's doubts in the draws after all readings", "ensemble smoother with multiple data assimilation, Emerick and Reynolds 2013", "measured"), Bands: move})
	}
	if move := to.Minus(read); !negligible(move) {
		steps = append(steps, path.Step{Name: stepMiddle, Cited: published.By("mean energy in the draws whose level at the place lies in the middle tenth, less that of the mean doubts", "energies of routes that are each in doubt add up: the middle of the sum is not the sum of the middles", "derived"), Bands: move})
	}
	r.Steps, r.Bands = steps, to
	return r
}

// negligible is true where no band moves by what a figure could show.
func negligible(move spectrum.Bands) bool {
	for _, v := range move {
		if math.Abs(v) > 1e-9 {
			return false
		}
	}
	return true
}
