package safety

import (
	"math"
	"slices"

	"hushwake/silencer"
	"hushwake/silencer/loss"
	"hushwake/silencer/wet"
	"hushwake/source"
	"hushwake/source/gas"
	"hushwake/source/said"
)

// hoses checks the heat and speed in each hose, with water and when the water stops.
func (i *inspection) hoses() {
	_, at := i.line.Injection()
	i.each(func(e silencer.Element, r silencer.Row, in float64) {
		f := e.Form()
		if !f.Hose || silencer.WallOf(e).MaxK > 500+273.15 {
			return
		}
		injected := at > 0 && at < r.Index
		h := wet.Hose{Gas: in, Velocity: r.Velocity, Injected: injected, Rating: f.Rating}
		if f.Rating == 0 && loss.MaterialName(e.Base().Material) == "silicone" {
			h.Rating = wet.HoseSilicone
		}
		if injected {
			h.DryGas = i.before(at)
		}
		i.wet(r.Name, h.Findings())
		if f.Laid && injected {
			i.wet(r.Name, wet.HoseSlope(f.Rise, f.Length))
		}
	})
}

// vessel refuses a moulded vessel that gas without water would burn.
func (i *inspection) vessel(e silencer.Element, r silencer.Row, in float64) {
	m := silencer.WallOf(e)
	if in <= m.MaxK {
		return
	}
	i.add(Finding{Code: "VESSEL-TOO-HOT", Severity: Danger, Refuse: true, Element: r.Name, Source: m.Source,
		Text:   said.Textf("%s: gas of {%.0f °C} meets a vessel of %s, good for {%.0f °C}.", r.Name, celsius(in), m.Material, celsius(m.MaxK)),
		Action: "inject water before it, or take a metal vessel"})
}

// water checks injection, lift chamber, riser and separator.
func (i *inspection) water() {
	i.each(i.waterside)
	i.wet("outlet", wet.OutletFindings(i.line.Outlet.BelowWater))
}

// waterside checks what of an element meets water.
func (i *inspection) waterside(e silencer.Element, r silencer.Row, in float64) {
	x := e.WaterSide()
	if w := e.Injects(); w != nil {
		i.wet(r.Name, wet.RawWater(w.Flow, i.c.Pipes.Share(i.c.Engine.Rated.Power)))
		i.balance(w, r, in)
	}
	if x.Vessel {
		i.vessel(e, r, in)
	}
	if x.Chamber != nil {
		i.lift(*x.Chamber, r)
	}
	if x.Separator != nil {
		i.separator(*x.Separator, r)
	}
	if x.Riser != nil {
		i.riser(x.Riser.Bore, x.Riser.Rise, x.Riser.Run(), r)
	}
}

// separator checks the speeds in a separator of gas and water.
func (i *inspection) separator(s wet.Separator, r silencer.Row) {
	if w, _ := i.line.Injection(); w != nil && i.c.Rated.OutletGas.Density > 0 {
		d := i.c.Rated.OutletGas.Density
		i.wet(r.Name, s.Findings(float64(i.c.Rated.MassFlow)/d, d, w.Flow))
	}
}

// balance says what is odd about the heat balance of the injection.
func (i *inspection) balance(w *silencer.WaterInjection, r silencer.Row, in float64) {
	if i.c.Rated.MassFlow == 0 || w.Flow <= 0 {
		return
	}
	_, found, err := wet.Inject(gas.Injection{Gas: i.c.RatedFeed.Gas, GasFlow: float64(i.c.Rated.MassFlow), GasTemperature: in,
		Pressure: gas.Atmosphere + i.c.Rated.BackPressure/2, WaterFlow: w.Flow * gas.SeaWaterDensity, WaterTemperature: w.Temperature})
	if err == nil {
		i.wet(r.Name, found)
	}
}

// lift checks room, cranking, dip tube and the riser on a lift chamber.
func (i *inspection) lift(c wet.Chamber, r silencer.Row) {
	bore, length := i.fallsBack(r.Index)
	found, err := c.Findings(c.Drain(bore, length), i.c.Heel)
	if err != nil {
		i.add(Finding{Code: "LIFT-CHAMBER-UNCHECKED", Severity: Warning, Text: sentence(err.Error()), Action: "check the chamber's dimensions", Element: r.Name, Source: geometry})
		return
	}
	i.wet(r.Name, found)
	i.wet(r.Name, c.LiftFindings())
	if drop, known := i.dropTo(r.Index); known {
		i.wet(r.Name, wet.ChamberDropFindings(drop))
	}
	flow := i.c.CrankingFlow
	if w, _ := i.line.Injection(); flow == 0 && w != nil {
		flow = w.Flow / 4
	}
	i.wet(r.Name, c.CrankingFindings(flow, i.c.Heel))
	i.riser(c.RiserBore, c.RiserRise, c.RiserRise, r)
	if i.c.Engine.Fuel == source.Petrol {
		i.add(Finding{Code: "PETROL-WATER-LIFT", Severity: Warning, Element: r.Name, Source: "boat mechanical systems handbook, ch. 7",
			Text: "A water-lift behind a petrol engine can burst when unburnt fuel lights in it while cranking.", Action: "ask the engine's maker; a handbook advises against it"})
	}
}

// dropTo is how far the hoses between the injection and an element fall, m; known is false without a hose.
func (i *inspection) dropTo(index int) (drop float64, known bool) {
	_, at := i.line.Injection()
	if at == 0 || at > index {
		return 0, false
	}
	for _, e := range i.line.Elements[at:index] {
		if f := e.Form(); f.Laid {
			drop, known = drop-f.Rise, true
		}
	}
	return drop, known
}

// fallsBack is the hose behind an element that rises towards the outlet and so drains back.
func (i *inspection) fallsBack(index int) (bore, length float64) {
	for _, e := range i.line.Elements[index:] {
		if f := e.Form(); f.Laid && f.Rise > 0 {
			bore, length = math.Max(bore, f.In), length+f.Length
		}
	}
	return bore, length
}

// riser checks the weight of water against the limit, the lift and the surging.
func (i *inspection) riser(bore, rise, run float64, r silencer.Row) {
	w, _ := i.line.Injection()
	if w == nil || w.Flow <= 0 || i.c.Rated.MassFlow == 0 {
		return
	}
	s := i.c.RatedFeed.Gas.At(r.GasTemperature, gas.Atmosphere)
	if s.Density == 0 {
		return
	}
	x := wet.Riser{Flow: wet.NewFlow(float64(i.c.Rated.MassFlow), w.Flow*gas.SeaWaterDensity, s.Density, s.Viscosity, bore), Rise: rise, Length: run}
	h, err := x.Head()
	if err != nil {
		return
	}
	limit := 0.0
	if i.c.Limit != nil {
		limit = *i.c.Limit
	}
	i.wet(r.Name, x.Findings(h, limit))
	if limit > 0 && h.Slug > 0.75*limit && h.Slug <= limit {
		i.add(Finding{Code: "RISER-SLUG-NEAR", Severity: Caution, Element: r.Name, Source: "weight of a water column",
			Text:   said.Textf("A riser full of water weighs {%.1f kPa} of the {%.1f kPa} the engine may have, before any other loss.", h.Slug/1e3, limit/1e3),
			Action: "keep the riser low; start and idle are when it stands full"})
	}
	i.add(Finding{Code: "RISER-SPREAD", Severity: Note, Element: r.Name, Source: h.Source,
		Text:   said.Textf("The riser takes about {%.1f kPa} while running; models of void fraction range from {%.1f to %.1f kPa}, and a slug of solid water weighs {%.1f kPa}.", h.Mean/1e3, h.Low/1e3, h.High/1e3, h.Slug/1e3),
		Action: "measure the back pressure after fitting"})
}

// heights checks injection, loop, riser and outlet over the waterline, upright and heeled.
func (i *inspection) heights() {
	i.each(func(e silencer.Element, r silencer.Row, _ float64) {
		x := e.WaterSide()
		if w := e.Injects(); w != nil {
			p := wet.Point{Height: w.HeightOverWater, Stated: w.HeightOverWaterOK, OffCentre: i.c.ManifoldOffset, Heel: i.c.Heel}
			i.wet(r.Name, p.Injection(i.looped()))
		}
		if x.Loop != nil {
			i.wet(r.Name, wet.Point{Height: *x.Loop, Stated: true, Heel: i.c.Heel}.Loop())
		}
		if x.Riser != nil {
			p := wet.Point{Height: x.Riser.TopOverWater, Stated: x.Riser.TopStated, OffCentre: i.c.OutletOffset, Heel: i.c.Heel}
			i.wet(r.Name, p.RiserTop())
		}
	})
	i.outletHeight()
}

// looped says whether a vented loop stands in the raw-water line.
func (i *inspection) looped() bool {
	return slices.ContainsFunc(i.line.Elements, func(e silencer.Element) bool { return e.WaterSide().Loop != nil })
}

// outletHeight says whether the outlet dips and whether anything high stands between it and the engine.
func (i *inspection) outletHeight() {
	if i.c.OutletHeight == nil || i.line.Outlet.BelowWater > 0 || !i.line.Outlet.Present {
		return
	}
	low := wet.Heeled(*i.c.OutletHeight, i.c.OutletOffset, i.c.Heel)
	if low > 0 {
		return
	}
	f := Finding{Code: "OUTLET-DIPS", Severity: Warning, Element: "outlet", Source: geometry,
		Text:   said.Textf("The outlet comes {%.0f mm} under water at %.0f degrees of heel: it breathes against the sea, and following waves can run up the line.", -1e3*low, i.c.Heel*180/math.Pi),
		Action: "a flap and a high loop; move the outlet up or towards the centreline"}
	if !i.hasRise() {
		f.Code, f.Severity = "OUTLET-FLOODS", Danger
		f.Action = "state the heights of the run; a riser well over the heeled waterline, a flap and a high loop keep the sea out"
		f.Text += " Nothing in this line is stated to rise above the waterline on the way to the engine."
	}
	i.add(f)
}

func (i *inspection) hasRise() bool {
	if slices.ContainsFunc(i.line.Elements, func(e silencer.Element) bool { return e.Form().Rise > 0 }) {
		return true
	}
	if w, _ := i.line.Injection(); w != nil && w.HeightOverWaterOK && w.HeightOverWater > 0.3 {
		return true
	}
	return i.c.ManifoldHeight != nil && *i.c.ManifoldHeight > 0.3
}
