package readings

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// residuals lists every reading in the order of the file, used or not.
func (f *fit) residuals(readings []path.Reading, reasons []string) []Residual {
	var all []Residual
	for i, r := range readings {
		if reasons[i] != "" {
			all = append(all, Residual{Reading: r.Index, What: where(r), Measured: measured(r), Unit: unitOf(r), Reason: reasons[i]})
		}
	}
	obs := append([]*observation(nil), f.obs...)
	sort.SliceStable(obs, func(i, j int) bool { return obs[i].reading < obs[j].reading })
	for _, o := range obs {
		all = append(all, f.residual(o, readings[o.reading]))
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].Reading < all[j].Reading })
	return all
}

func (f *fit) residual(o *observation, r path.Reading) Residual {
	before := o.restore(o.model(make([]float64, f.terms)))
	after := o.restore(o.model(f.x[:f.terms]))
	rest, shown := o.shown-after, o.shown
	res := Residual{Reading: r.Index, What: where(r), Unit: o.unit, Measured: &shown, Predicted: &before, After: &after,
		Residual: &rest, Standardised: o.standard, Used: o.out == "", Reason: o.out}
	switch {
	case o.out != "":
	case math.Abs(o.standard) > outlierNamed:
		res.Reason = fmt.Sprintf("odd: %.1f deviations from what all else says; used, but check it", math.Abs(o.standard))
	default:
		res.Reason = o.note
	}
	switch {
	case o.finding != "" && res.Reason == o.note:
		res.Reason = o.finding
	case o.finding != "":
		res.Reason = o.finding + "; " + res.Reason
	}
	return res
}

// where names the place of a reading.
func where(r path.Reading) string {
	place := r.Listener
	switch {
	case r.Mount != nil:
		place = strings.TrimSuffix("mount of "+r.Engine, " of ")
	case r.Level == nil && r.Bands == nil && r.Engine != "":
		place = "exhaust of " + r.Engine
	case place == "" && r.Space != "":
		place = r.Space
	}
	if r.Layout != "" {
		place += ", " + r.Layout
	}
	return place
}

func measured(r path.Reading) *float64 {
	switch {
	case r.Level != nil:
		return r.Level
	case r.BackPress != nil:
		return r.BackPress
	case r.Mount != nil && len(r.Mount.Above) == 1:
		drop := r.Mount.Above[0] - r.Mount.Below[0]
		return &drop
	}
	return r.Temp
}

// Apply gives the prediction as the belief corrects it: every route, every level and every back
// pressure at the mean of the terms. A step of its own says what the readings moved, so that the
// steps still add up to the route.
func Apply(m *draws.Model, p path.Prediction, b draws.Belief) (path.Prediction, error) {
	l, err := m.LayoutOf(&p)
	if err != nil {
		return p, err
	}
	out := p
	out.Listeners = append([]path.Heard(nil), p.Listeners...)
	for i := range out.Listeners {
		h := &out.Listeners[i]
		h.Routes = append([]path.Route(nil), h.Routes...)
		for j := range h.Routes {
			shiftRoute(&h.Routes[j], l.Listeners[i].Routes[j].At(b.Mean))
		}
		h.Bands = l.Listeners[i].Bands(b.Mean)
		sort.SliceStable(h.Routes, func(a, c int) bool { return h.Routes[a].DBA() > h.Routes[c].DBA() })
	}
	out.Exhausts = append([]path.ExhaustResult(nil), p.Exhausts...)
	for i := range out.Exhausts {
		x, f := &out.Exhausts[i], l.Exhausts[i].Factor(b.Mean)
		x.Running, x.Rated = scaledLine(x.Running, f), scaledLine(x.Rated, f)
	}
	return out, nil
}

func shiftRoute(r *path.Route, to spectrum.Bands) {
	move := to.Minus(r.Bands)
	if move == (spectrum.Bands{}) {
		return
	}
	r.Steps = append(append([]path.Step(nil), r.Steps...), path.Step{Name: "readings on board",
		Formula: "most probable values of the named terms given all readings",
		Source:  "linear-Gaussian update, relinearised", Mark: "measured", Bands: move})
	r.Bands = to
}

func scaledLine(m silencer.Marched, f float64) silencer.Marched {
	m.BackPressure *= f
	m.Rows = append([]silencer.Row(nil), m.Rows...)
	for i := range m.Rows {
		m.Rows[i].PressureLoss *= f
	}
	return m
}
