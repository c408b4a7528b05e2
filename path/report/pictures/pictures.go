package pictures

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hushwake/charts/picture"
	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// AddTo puts the pictures of its layouts into a page, and the waterfall to its main place.
func (w Drawn) AddTo(r *report.Page, u form.Units) {
	at := make([]int, len(r.Layouts))
	for k, l := range r.Layouts {
		at[k] = slices.IndexFunc(w.Predictions, func(p path.Prediction) bool { return p.Layout.Name == l.Name })
		r.Pictures = append(r.Pictures, w.Pictures(at[k], u))
	}
	detailed := r.InDetail()
	r.Fall = w.Waterfall(at[detailed[0]], at[detailed[len(detailed)-1]], w.Listener, u)
}

// Pictures are those of a layout, by its place in Predictions.
func (w Drawn) Pictures(i int, u form.Units) picture.Set {
	out := picture.Set{Layout: i, Boat: w.ToScale(i, u)}
	from, to := w.bandAxis()
	for j := range w.Boat.Listeners {
		out.Ladders = append(out.Ladders, w.Ladder(i, j, u))
		out.Bands = append(out.Bands, w.bandPicture(i, j, from, to))
	}
	for e := range w.Predictions[i].Exhausts {
		out.Lines = append(out.Lines, w.linePicture(i, e, u))
	}
	out.Boxes = w.boxPictures(i, u)
	return out
}

// bandAxis is one axis for the levels of all layouts at all listeners, whole tens.
func (w Drawn) bandAxis() (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for _, l := range w.Boat.Listeners {
		if l.Limit != nil {
			from, to = math.Min(from, *l.Limit), math.Max(to, *l.Limit)
		}
	}
	for _, l := range w.Spread.Layouts {
		for _, s := range l.Listeners {
			from, to = math.Min(from, heardLevel(s.Low)), math.Max(to, s.High)
		}
	}
	return math.Floor(from/10) * 10, math.Ceil(to/10) * 10
}

// BandAt is a level with its band on the axis of all.
func (w Drawn) BandAt(layout, listener int) picture.Band {
	from, to := w.bandAxis()
	return w.bandPicture(layout, listener, from, to)
}

func (w Drawn) bandPicture(i, j int, from, to float64) picture.Band {
	l := w.Boat.Listeners[j]
	return picture.Band{Name: l.Name + ", " + w.Predictions[i].Layout.Name, Level: w.LevelAt(i, j), Limit: l.Limit, From: from, To: to}
}

// Ladder is what comes to a listener by each way.
func (w Drawn) Ladder(i, j int, u form.Units) picture.Ladder {
	p, l := &w.Predictions[i], w.Boat.Listeners[j]
	out := picture.Ladder{Seat: l.Name, Layout: p.Layout.Name, Total: w.LevelAt(i, j), Limit: l.Limit, Now: w.nowAt(i, j)}
	if out.Total.Unjudged {
		out.Title = "What comes to " + l.Name + " with " + p.Layout.Name + " can't be judged yet"
		return out
	}
	out.Rungs = rungs(&p.Listeners[j], u)
	out.Title = "Nothing reaches " + l.Name + " with " + p.Layout.Name
	if len(out.Rungs) > 0 {
		share := 100 * spectrum.Power(out.Rungs[0].Level-out.Total.DBA)
		out.Title = strconv.FormatFloat(share, 'f', 0, 64) + " % of what one hears at " + l.Name + " with " + p.Layout.Name + " comes " + out.Rungs[0].Way.Words()
	}
	return out
}

// Waterfall follows the loudest route to a listener in a layout and, where k is another one, in that: each shows what is
// heard there of all its routes together, so that no quiet way stands for a loud layout.
func (w Drawn) Waterfall(i, k, j int, u form.Units) picture.Waterfall {
	seat := w.Boat.Listeners[j].Name
	out := picture.Waterfall{Seat: seat, Title: "Nothing leads to " + seat}
	for n, at := range []int{i, k} {
		h := &w.Predictions[at].Listeners[j]
		if n == 1 && k == i || len(h.Routes) == 0 || w.Asked(at) {
			continue
		}
		c := cascade(w.Predictions[at].Layout.Name, h.Routes[0], u)
		c.All = w.LevelAt(at, j).DBA
		if len(out.Cascades) == 0 && len(c.Falls) > 0 {
			out.Title = "From " + c.Source + " to " + seat + " on its loudest route: " + form.Decibel(c.Falls[0].After) + " dB(A) at the source, " +
				form.Decibel(c.Falls[len(c.Falls)-1].After) + " left"
		}
		out.Cascades = append(out.Cascades, c)
	}
	return out
}

// cascade is what is left of a route after each step: octaves summed as energy, each with the A-weight that the route
// ends with, so that the last figure is the level of the route.
func cascade(layout string, r path.Route, u form.Units) picture.Cascade {
	out := picture.Cascade{Layout: layout, Source: r.Source, Route: u.Local(r.Route), Way: drawnAs(r.Way)}
	weight := r.Weighted().Minus(r.Bands)
	var left spectrum.Bands
	for _, s := range r.Steps {
		left = left.Plus(s.Bands)
		out.Falls = append(out.Falls, picture.Fall{Name: u.Local(s.Name), After: heardLevel(left.Plus(weight).Total())})
	}
	return out
}

func (w Drawn) linePicture(i, e int, u form.Units) picture.Line {
	r := &w.Predictions[i].Exhausts[e]
	out := picture.Line{Engine: r.Engine, Feet: u.System == quantity.Imperial, Title: lineTitle(r, w.Spread.Layouts[i].Exhausts[e], u)}
	out.GasC, out.Gas = r.Rated.InletTemperature-273.15, u.Show(r.Rated.InletTemperature, quantity.Temperature)
	left := r.Rated.BackPressure
	for _, row := range r.Rated.Rows {
		if row.Index == 0 && row.Kind != "outlet" { // a step of bore between two elements: nothing to build
			left -= row.PressureLoss
			continue
		}
		part := picture.Part{Name: strings.ReplaceAll(u.Local(row.Name), "_", " "), Length: row.Length, Bore: row.Bore, Outer: row.OuterSize,
			GasC: row.GasTemperature - 273.15, Pressure: left, Gauge: u.Gauge(left),
			Gas: u.Show(row.GasTemperature, quantity.Temperature)}
		part.Size = sizeText(row.Length, row.Bore, u)
		if row.Length > 0 { // a step or a mouth has no outside
			part.Skin = u.Show(row.SkinTemperature, quantity.Temperature)
		}
		if row.Growth > 0.5e-3 {
			part.Growth = u.Size(row.Growth)
		}
		left -= row.PressureLoss
		out.Parts = append(out.Parts, part)
	}
	return out
}

func sizeText(length, bore float64, u form.Units) string {
	var parts []string
	if length > 0 {
		parts = append(parts, u.Size(length))
	}
	if bore > 0 {
		parts = append(parts, "bore "+u.Size(bore))
	}
	return strings.Join(parts, ", ")
}

func lineTitle(r *path.ExhaustResult, s draws.PressureSpread, u form.Units) string {
	t := "The line of " + r.Engine + ": " + u.Gauge(s.Rated) + " at rated power"
	if r.Limit != nil {
		t += ", limit " + u.Gauge(*r.Limit)
	}
	return t
}
