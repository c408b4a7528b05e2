// Package drawstest holds the invented boats that the tests of what is done with predictions share: some layouts, some
// listeners, routes with flat and shaped terms, and one read from a file whose mounts and hull rule at the seat.
package drawstest

import (
	"fmt"

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// ExhaustBands is the sound power of the exhaust, dB.
var ExhaustBands = spectrum.Bands{78, 92, 96, 90, 84, 80, 76, 70, 60}

// Uncertain is a deviation that is equal in all bands, dB.
func Uncertain(term, key string, sd float64) path.Uncertain {
	return path.Uncertain{Term: term, Key: key, SD: spectrum.Fill(sd), Source: "judgement"}
}

// shaped is a deviation by band, dB.
func shaped(term, key string, sd spectrum.Bands) path.Uncertain {
	return path.Uncertain{Term: term, Key: key, SD: sd, Source: "judgement"}
}

// OutletRoute is the exhaust's way to a listener: a loss by the line and one by the way.
func OutletRoute(layout string, lineLoss, way, lineSD float64) path.Route {
	line, gain := spectrum.Fill(-lineLoss), spectrum.Fill(-way)
	return path.Route{Engine: "main", Way: path.ByOutlet, Source: "main exhaust", Route: "outlet - outdoors", Bands: ExhaustBands.Plus(line).Plus(gain),
		Steps: []path.Step{
			{Name: "source", Bands: ExhaustBands, Uncertain: []path.Uncertain{
				Uncertain("source level", "source level/main", 4),
				shaped("order pattern", "order pattern/main", spectrum.Bands{2.5, 2, 1.5, 1.5, 1, .5, .5, .5, .5})}},
			{Name: "line", Bands: line, Uncertain: []path.Uncertain{Uncertain("element model", "element model/"+layout, lineSD)}},
			{Name: "way", Bands: gain, Uncertain: []path.Uncertain{
				shaped("directivity", "directivity/main", spectrum.Bands{.5, .5, .5, .5, 1, 1.5, 2, 2.5, 2.5})}},
		}}
}

// CasingRoute is the way of the casing through the panels at a level, dB.
func CasingRoute(level float64) path.Route {
	b := spectrum.Bands{70, 72, 74, 74, 72, 70, 66, 60, 52}.Shift(level - 70)
	return path.Route{Engine: "main", Way: path.ByAir, Source: "main casing", Route: "engine room - panels", Bands: b, Steps: []path.Step{
		{Name: "casing", Bands: b, Uncertain: []path.Uncertain{
			Uncertain("source level", "casing level/main", 3), Uncertain("panel", "panel/bulkhead", 3)}}}}
}

// Boat makes n layouts with 4 listeners and extra further routes at each.
func Boat(n, extra int) (all []path.Prediction) {
	for i := range n {
		name := fmt.Sprintf("layout %d", i+1)
		p := path.Prediction{Layout: &path.Layout{Name: name}}
		for j, way := range []float64{10, 14, 20, 34} {
			h := path.Heard{Listener: path.Listener{Name: []string{"helm", "deck", "cabin", "next boat"}[j]}}
			h.Routes = append(h.Routes, OutletRoute(name, 6*float64(i), way, 2))
			h.Routes = append(h.Routes, CasingRoute(56-way/2))
			for k := range extra {
				r := CasingRoute(50 - way/2 - float64(k))
				r.Route = fmt.Sprintf("way %d", k)
				r.Steps[0].Uncertain = append(r.Steps[0].Uncertain,
					Uncertain("panel", fmt.Sprintf("panel/%d", k), 2), shaped("room", fmt.Sprintf("room/%d", k), spectrum.Bands{3, 2, 2, 1, 1, 1, 1, 1, 1}))
				h.Routes = append(h.Routes, r)
			}
			Finish(&h)
			p.Listeners = append(p.Listeners, h)
		}
		limit := 60.0
		p.Listeners[3].Listener.Limit = &limit
		p.Exhausts = []path.ExhaustResult{Exhaust(5000 + 1000*float64(i))}
		all = append(all, p)
	}
	return all
}

// Exhaust is one line with its rated back pressure, Pa.
func Exhaust(rated float64) path.ExhaustResult {
	limit := 7000.0
	return path.ExhaustResult{Engine: "main", Limit: &limit, OutletPower: ExhaustBands.Shift(20),
		Rated:   silencer.Marched{BackPressure: rated, OutletTemperature: 600},
		Running: silencer.Marched{BackPressure: rated * .6, OutletTemperature: 550},
		PressureTerms: []path.PressureTerm{{Term: "flow", Key: "flow/main", SD: .1, Source: "judgement"},
			{Term: "temperature", Key: "temperature/main", SD: .05, Source: "judgement"},
			{Term: "element loss", Key: "element loss/main", SD: .15, Source: "judgement"}}}
}

// Finish sums the routes up.
func Finish(h *path.Heard) {
	var all []spectrum.Bands
	for _, r := range h.Routes {
		all = append(all, r.Bands)
	}
	h.Bands = spectrum.SumBands(all...)
}

// Scaled makes every deviation f times as large.
func Scaled(all []path.Prediction, f float64) []path.Prediction {
	for i := range all {
		for _, h := range all[i].Listeners {
			for _, r := range h.Routes {
				for _, s := range r.Steps {
					for k := range s.Uncertain {
						for b := range s.Uncertain[k].SD {
							s.Uncertain[k].SD[b] *= f
						}
					}
				}
			}
		}
	}
	return all
}

// HeardAt is a reading of a level, dB(A).
func HeardAt(index int, layout, listener string, level, pm float64, instrument string) path.Reading {
	return path.Reading{Index: index, Layout: layout, Listener: listener, Level: &level, PlusMinus: pm, Instrument: instrument, Weighting: "A"}
}

// PressureAt is a reading of a back pressure, Pa.
func PressureAt(index int, layout string, pa, pm float64) path.Reading {
	return path.Reading{Index: index, Layout: layout, Engine: "main", BackPress: &pa, PlusMinus: pm, Instrument: "U-tube"}
}
