package study

import (
	"fmt"

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// An invented boat for the tests: some layouts, some listeners, routes with flat and shaped terms.

var exhaustBands = spectrum.Bands{78, 92, 96, 90, 84, 80, 76, 70, 60}

func uncertain(term, key string, sd float64) path.Uncertain {
	return path.Uncertain{Term: term, Key: key, SD: spectrum.Fill(sd), Source: "judgement"}
}

func shaped(term, key string, sd spectrum.Bands) path.Uncertain {
	return path.Uncertain{Term: term, Key: key, SD: sd, Source: "judgement"}
}

// outletRoute is the exhaust's way to a listener: a loss by the line and one by the way.
func outletRoute(layout string, lineLoss, way, lineSD float64) path.Route {
	line, gain := spectrum.Fill(-lineLoss), spectrum.Fill(-way)
	return path.Route{Engine: "main", Way: path.ByOutlet, Source: "main exhaust", Route: "outlet - outdoors", Bands: exhaustBands.Plus(line).Plus(gain),
		Steps: []path.Step{
			{Name: "source", Bands: exhaustBands, Uncertain: []path.Uncertain{
				uncertain("source level", "source level/main", 4),
				shaped("order pattern", "order pattern/main", spectrum.Bands{2.5, 2, 1.5, 1.5, 1, .5, .5, .5, .5})}},
			{Name: "line", Bands: line, Uncertain: []path.Uncertain{uncertain("element model", "element model/"+layout, lineSD)}},
			{Name: "way", Bands: gain, Uncertain: []path.Uncertain{
				shaped("directivity", "directivity/main", spectrum.Bands{.5, .5, .5, .5, 1, 1.5, 2, 2.5, 2.5})}},
		}}
}

func casingRoute(level float64) path.Route {
	b := spectrum.Bands{70, 72, 74, 74, 72, 70, 66, 60, 52}.Shift(level - 70)
	return path.Route{Engine: "main", Way: path.ByAir, Source: "main casing", Route: "engine room - panels", Bands: b, Steps: []path.Step{
		{Name: "casing", Bands: b, Uncertain: []path.Uncertain{
			uncertain("source level", "casing level/main", 3), uncertain("panel", "panel/bulkhead", 3)}}}}
}

// boat makes n layouts with 4 listeners and extra further routes at each.
func boat(n, extra int) (all []path.Prediction) {
	for i := range n {
		name := fmt.Sprintf("layout %d", i+1)
		p := path.Prediction{Layout: &path.Layout{Name: name}}
		for j, way := range []float64{10, 14, 20, 34} {
			h := path.Heard{Listener: path.Listener{Name: []string{"helm", "deck", "cabin", "next boat"}[j]}}
			h.Routes = append(h.Routes, outletRoute(name, 6*float64(i), way, 2))
			h.Routes = append(h.Routes, casingRoute(56-way/2))
			for k := range extra {
				r := casingRoute(50 - way/2 - float64(k))
				r.Route = fmt.Sprintf("way %d", k)
				r.Steps[0].Uncertain = append(r.Steps[0].Uncertain,
					uncertain("panel", fmt.Sprintf("panel/%d", k), 2), shaped("room", fmt.Sprintf("room/%d", k), spectrum.Bands{3, 2, 2, 1, 1, 1, 1, 1, 1}))
				h.Routes = append(h.Routes, r)
			}
			finish(&h)
			p.Listeners = append(p.Listeners, h)
		}
		limit := 60.0
		p.Listeners[3].Listener.Limit = &limit
		p.Exhausts = []path.ExhaustResult{exhaust(5000 + 1000*float64(i))}
		all = append(all, p)
	}
	return all
}

func exhaust(rated float64) path.ExhaustResult {
	limit := 7000.0
	return path.ExhaustResult{Engine: "main", Limit: &limit, OutletPower: exhaustBands.Shift(20),
		Rated:   silencer.Marched{BackPressure: rated, OutletTemperature: 600},
		Running: silencer.Marched{BackPressure: rated * .6, OutletTemperature: 550},
		PressureTerms: []path.PressureTerm{{Term: "flow", Key: "flow/main", SD: .1, Source: "judgement"},
			{Term: "temperature", Key: "temperature/main", SD: .05, Source: "judgement"},
			{Term: "element loss", Key: "element loss/main", SD: .15, Source: "judgement"}}}
}

func finish(h *path.Heard) {
	var all []spectrum.Bands
	for _, r := range h.Routes {
		all = append(all, r.Bands)
	}
	h.Bands = spectrum.SumBands(all...)
}

// scaled makes every deviation f times as large.
func scaled(all []path.Prediction, f float64) []path.Prediction {
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
