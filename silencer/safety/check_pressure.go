package safety

import (
	"cmp"
	"math"

	"hushwake/silencer"
	"hushwake/silencer/loss"
	"hushwake/source"
	"hushwake/source/gas"
	"hushwake/source/said"
)

// pressure compares the back pressure at rated with the stated limit; a figure of common practice is
// named only when there is none, and never refuses.
func (i *inspection) pressure() {
	p := i.c.Rated.BackPressure
	stands := i.promised(p)
	open, silent, basis := i.openPressure()
	i.ask(silent)
	if i.c.Limit == nil {
		i.noLimit(p)
		return
	}
	limit := *i.c.Limit
	i.slip("", loss.LimitSlip(limit))
	const ask = "a wider bore, fewer bends or a freer silencer; the engine maker's limit governs"
	switch fouled := p * i.fouling(); {
	case p > limit && (stands || p-open <= limit):
		i.undecided(p, p-open, limit, stands)
		i.ask(basis)
	case p > limit:
		text := said.Textf("Back pressure at rated is {%.1f kPa}, over the engine's limit of {%.1f kPa}.", p/1e3, limit/1e3)
		if p > 2*limit {
			text += " That is more than twice the limit: check flow, bores and temperature too."
		}
		i.add(Finding{Code: CodeOverLimit, Severity: Danger, Refuse: true, Text: text, Action: ask, Source: "limit stated in the boat file"})
	case fouled > limit:
		i.add(Finding{Code: "OVER-LIMIT-WHEN-FOULED", Severity: Warning,
			Text:   said.Textf("Clean, the line takes {%.1f of %.1f kPa}; a millimetre of soot all round makes it {%.1f kPa}.", p/1e3, limit/1e3, fouled/1e3),
			Action: ask + "; measure again each season", Source: said.Textf("loss goes with bore to the power of -5; {1 mm} of soot: ") + practice})
	case p > 0.75*limit:
		i.add(Finding{Code: "MARGIN-SMALL", Severity: Caution,
			Text:   said.Textf("Back pressure at rated is {%.1f kPa}, %.0f %% of the limit: little is left for soot and for error of this estimate.", p/1e3, 100*p/limit),
			Action: "keep a tapped plug near the manifold and measure at full load", Source: "three quarters of the limit: " + practice})
	}
}

// undecided is said of a line that keeps the limit by one answer and not by the other; of a promise that the drawing does not
// keep it is the question itself.
func (i *inspection) undecided(p, low, limit float64, promised bool) {
	f := Finding{Code: "LIMIT-UNDECIDED", Severity: Warning, Action: "ask before ordering; the engine maker's limit governs", Source: "limit stated in the boat file",
		Text: said.Textf("Back pressure at rated is {%.1f or %.1f kPa}, as the open question is answered; the engine's limit is {%.1f kPa}.", low/1e3, p/1e3, limit/1e3)}
	if promised {
		f.Code, f.Ask = CodeAskFirst, true
		f.Text = said.Textf("At most {%.1f kPa} are promised at the engine, within its limit of {%.1f kPa}; as drawn the line takes {%.1f kPa}: by which bores and which silencer is the promise kept?", *i.c.Promised/1e3, limit/1e3, p/1e3)
	}
	i.add(f)
}

// fouling is how much more a line loses with 1 mm of soot all round, by its narrowest bore.
func (i *inspection) fouling() float64 {
	bore := math.Inf(1)
	for _, r := range i.c.Rated.Rows {
		if r.Bore > 0 {
			bore = math.Min(bore, r.Bore)
		}
	}
	if math.IsInf(bore, 1) || bore < 0.01 || !i.dry() {
		return 1
	}
	return math.Pow(bore/(bore-2e-3), 5)
}

// usual is a back pressure of common practice by kind of engine, Pa.
func usual(e source.Engine) (pa float64, what, from string) {
	switch {
	case e.Breathes() == source.Blower:
		return 8e3, "blower-scavenged engine", "uncertain: no source found for blower two-strokes"
	case e.Breathes() == source.Turbocharged:
		return 5e3, "turbocharged engine", said.Textf("small marine diesel manual ({4.9 to 5.2 kPa}); a handbook has 6.8")
	}
	return 8.5e3, "naturally aspirated engine", "boat mechanical systems handbook, ch. 7 (2.5 inHg)"
}

func (i *inspection) noLimit(p float64) {
	pa, what, from := usual(i.c.Engine)
	f := Finding{Code: "NO-LIMIT-STATED", Severity: Caution, Source: from + "; " + practice,
		Text:   said.Textf("No back-pressure limit is stated, so nothing is judged by one. About {%.1f kPa} is common practice for a %s; this line takes {%.1f kPa} at rated.", pa/1e3, what, p/1e3),
		Action: "take the limit from the engine's own manual and state it as back_pressure_limit"}
	if p > pa {
		f.Code = "ABOVE-COMMON-PRACTICE"
		f.Text = said.Textf("This line takes {%.1f kPa} at rated, more than the {%.1f kPa} of common practice for a %s. No limit of the engine's maker is stated.", p/1e3, pa/1e3, what)
	}
	i.add(f)
}

// traps looks for the usual slips with figures.
func (i *inspection) traps() {
	e := i.c.Engine
	flow := cmp.Or(i.c.RatedFeed.MassFlow, i.c.Rated.MassFlow)
	blown := e.Stroke == source.TwoStroke && e.Breathes() == source.Blower
	i.slip("", loss.FlowSlip(float64(flow.All(i.c.Pipes)), e.Rated.Power, blown))
	if k := i.c.Rated.InletTemperature; k > 900+273.15 {
		i.add(Finding{Code: "GAS-VERY-HOT", Severity: Warning, Text: said.Textf("Exhaust gas of {%.0f °C} at rated is not likely for an engine ({300 to 600 °C}).", celsius(k)),
			Action: "check the temperature and its unit", Source: practice})
	}
	i.each(func(el silencer.Element, r silencer.Row, in float64) {
		if g := el.Quoted(); g != nil && g.Loss != nil {
			i.quote(g, r, in)
		}
	})
}

// quote judges a quoted loss against the gas that will flow.
func (i *inspection) quote(g *silencer.Given, r silencer.Row, in float64) {
	s, flow := i.c.RatedFeed.Gas.At(in, gas.Atmosphere), float64(i.c.Rated.MassFlow)*cmp.Or(r.Share, 1)
	if s.Density == 0 || flow == 0 || r.Bore == 0 {
		return
	}
	d, err := g.Loss.Scale(loss.Duty{MassFlow: flow, Density: s.Density, Temperature: in})
	if err != nil {
		return
	}
	code := "COLD-CURVE-READ-HOT"
	switch g.Loss.Basis {
	case silencer.BasisUnknown:
		code = "QUOTE-BASIS-UNKNOWN"
	case silencer.BasisEqualMass:
		code = "DENSITY-OF-ANOTHER-TEMPERATURE"
	}
	mixed := densitySlip(g.Loss)
	i.slip(r.Name, mixed)
	for _, w := range d.Warnings {
		if mixed != nil && w == mixed.Text {
			continue
		}
		i.add(Finding{Code: code, Severity: Warning, Text: sentence(r.Name + ": " + w), Action: "ask the maker for which gas, flow and temperature the loss holds", Source: d.Source, Element: r.Name})
	}
	v := flow / (s.Density * math.Pi / 4 * r.Bore * r.Bore)
	i.slip(r.Name, loss.DropSlip(d.Drop, s.Density, v))
}

// densitySlip finds a quote whose mass and volume flow, or whose volume flow and gas, belong to two temperatures.
func densitySlip(l *silencer.Loss) *loss.Slip {
	if l.VolumeFlow > 0 && l.FlowTemperature > 0 && l.Temperature > 0 && l.Basis == silencer.BasisHot {
		return loss.DensitySlip(loss.ExhaustDensity(l.FlowTemperature), l.Temperature, gas.Atmosphere)
	}
	if !(l.MassFlow > 0 && l.VolumeFlow > 0 && l.Temperature > 0) {
		return nil
	}
	return loss.DensitySlip(l.MassFlow/l.VolumeFlow, l.Temperature, gas.Atmosphere)
}
