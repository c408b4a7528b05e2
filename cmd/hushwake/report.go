package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"

	"hushwake/charts"
	"hushwake/path"
	"hushwake/path/study/advice"
	"hushwake/path/study/draws"
	"hushwake/path/study/sweep"
	"hushwake/path/study/verify"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// writeReport writes the page of a comparison.
func (o *compareOptions) writeReport(w *worked) error {
	r, err := o.newReport(w)
	if err != nil {
		return err
	}
	var page bytes.Buffer
	if err := charts.Write(&page, r); err != nil {
		return failed("%w", err)
	}
	if err := writeFile(o.report, page.Bytes(), o.force); err != nil {
		return err
	}
	o.remark("wrote %s", o.report)
	return nil
}

// newReport fills the page's data from the work.
func (o *compareOptions) newReport(w *worked) (*charts.Report, error) {
	r := &charts.Report{
		Boat: w.boat.Text, Version: version, Imperial: o.units == "imperial", Currency: w.boat.Currency,
		Provenance: fmt.Sprintf("seed %d, %d draws, %s", w.spread.Draws.Seed, w.spread.Draws.N, w.dutyText()),
		BandsHz:    spectrum.Nominal[:], NRCurves: nrCurves(w), Warnings: w.told(o.common), NotValidated: verify.NotValidated,
	}
	copy(r.Answer[:], w.answer())
	for _, l := range w.boat.Listeners {
		r.Listeners = append(r.Listeners, reportListener(l))
	}
	order := w.order(w.listener)
	if err := w.reportLayouts(r, order, o.local); err != nil {
		return nil, err
	}
	r.Cautions = w.reportCautions(order, o.local)
	w.reportChains(r, order)
	verified := inBackground(verify.Run)
	if err := w.reportSweeps(r, order); err != nil {
		return nil, err
	}
	w.reportOffers(r, order, o.common)
	w.reportBoxes(r, order, o.local)
	w.reportTrust(r, verified, o.local)
	return r, nil
}

// reportLayouts works the layouts out side by side, in their order.
func (w *worked) reportLayouts(r *charts.Report, order []int, local func(string) string) error {
	w.fronts()
	r.Layouts = make([]charts.Layout, len(order))
	errs := make([]error, len(order))
	sideBySide(len(order), func(at int) { r.Layouts[at], errs[at] = w.reportLayout(order[at], local) })
	return errors.Join(errs...)
}

func reportListener(l path.Listener) charts.Listener {
	out := charts.Listener{Name: l.Name, Where: "in " + l.In, LimitDBA: l.Limit}
	if l.In == path.Outside {
		out.Where = "outside"
	}
	if l.Hours > 0 {
		h := l.Hours
		out.Hours = &h
	}
	return out
}

// nrCurves are the curves about the levels on the page.
func nrCurves(w *worked) []charts.NRCurve {
	var out []charts.NRCurve
	for nr := 30.0; nr <= 90; nr += 10 {
		b := spectrum.NRCurve(nr)
		out = append(out, charts.NRCurve{Name: fmt.Sprintf("NR %.0f", nr), BandsDB: bandValues(b)})
	}
	return out
}

func (w *worked) reportLayout(i int, local func(string) string) (charts.Layout, error) {
	p, s := &w.predictions[i], w.spread.Layouts[i]
	l := charts.Layout{Name: p.Layout.Name, Refused: p.Refused, Wet: p.Layout.Wet(), Price: p.Layout.Price, LengthM: p.Length, MassKG: p.Mass, Fits: p.Fits}
	for j := range p.Listeners {
		h := w.reportHeard(i, j)
		h.Means = local(h.Means)
		l.Heard = append(l.Heard, h)
	}
	for j := range p.Exhausts {
		x, err := w.reportExhaust(i, j, s.Exhausts[j])
		if err != nil {
			return l, err
		}
		l.Exhausts = append(l.Exhausts, x)
	}
	for _, f := range p.Findings {
		switch f.Code {
		case silencer.CodeDoesNotFit, silencer.CodeTight, silencer.CodeTooLong:
			l.SpaceNote = strings.TrimSpace(l.SpaceNote + " " + local(sentence(f.Text)))
		}
		if f.Refuse {
			l.Refusals = append(l.Refusals, local(sentence(f.Text)+" "+sentence(f.Action)))
		}
	}
	return l, nil
}

// placesOnPage is where each layout stands on the page.
func (w *worked) placesOnPage(order []int) map[string]int {
	at := map[string]int{}
	for k, i := range order {
		at[w.predictions[i].Layout.Name] = k
	}
	return at
}

// reportCautions are the cautions of all layouts, each wording once, with the layouts it concerns.
func (w *worked) reportCautions(order []int, local func(string) string) []charts.Caution {
	at := w.placesOnPage(order)
	var out []charts.Caution
	for _, f := range w.cautions(allNames, local) {
		c := charts.Caution{Code: f.Code, Severity: f.Severity, Text: sentence(f.Text), Action: sentence(f.Action), Source: local(f.Source)}
		for _, name := range f.in {
			c.Layouts = append(c.Layouts, at[name])
		}
		out = append(out, c)
	}
	return out
}

func (w *worked) reportHeard(i, j int) charts.Heard {
	h, s := &w.predictions[i].Listeners[j], w.spread.Layouts[i].Listeners[j]
	quietest := s.Quietest
	out := charts.Heard{
		LevelDBA: level(s.Level), LowDBA: level(s.Low), HighDBA: level(s.High), LevelDBC: level(h.Bands.DBC()),
		BandsDB: bandLevels(h.Bands), ProbabilityQuietest: &quietest, ProbabilityOverLimit: s.OverLimit, Means: meaning(h, s),
	}
	if nr, _ := spectrum.NR(h.Bands); spectrum.NRValid(nr) {
		out.NR = num(nr)
	}
	for _, t := range w.fronts() {
		if t.Layout == w.predictions[i].Layout.Name && t.Listener == h.Listener.Name {
			out.OnFront = t.OnFront
		}
	}
	for _, r := range h.Routes {
		out.Routes = append(out.Routes, charts.Route{Source: r.Source, Route: r.Route, LevelDBA: level(r.DBA()), BandsDB: bandLevels(r.Bands)})
	}
	return out
}

// fronts works the trade-off out once.
func (w *worked) fronts() []advice.Tradeoff {
	if w.front == nil {
		w.front = advice.Front(w.predictions)
	}
	return w.front
}

func (w *worked) reportExhaust(i, j int, s draws.PressureSpread) (charts.Exhaust, error) {
	r := &w.predictions[i].Exhausts[j]
	x := charts.Exhaust{
		Engine: r.Engine, RunningKPa: kilopascal(r.Running.BackPressure), RatedKPa: kilopascal(s.Rated), RatedLowKPa: kilopascal(s.Low),
		RatedHighKPa: kilopascal(s.High), LimitKPa: numOr(r.Limit, 1e-3), ProbabilityOverLimit: s.OverLimit,
		OutletC: celsius(r.Running.OutletTemperature), OutletMS: num(r.Running.OutletVelocity), InsertionDBA: num(r.InsertionDBA),
		InsertionDB: bandValues(r.Acoustics.InsertionLoss),
	}
	left := r.Rated.BackPressure
	for _, row := range r.Rated.Rows {
		x.Along = append(x.Along, charts.Along{Name: row.Name, Kind: row.Kind, LossKPa: kilopascal(row.PressureLoss),
			PressureKPa: kilopascal(left), GasC: celsius(row.GasTemperature), SkinC: celsius(row.SkinTemperature),
			VelocityMS: num(row.Velocity), GrowthMM: num(row.Growth * 1e3)})
		left -= row.PressureLoss
	}
	var err error
	x.Loss, err = w.reportLoss(i, r)
	return x, err
}

// reportLoss is the curve of the line up to 2 kHz with the engine's strongest orders.
func (w *worked) reportLoss(i int, r *path.ExhaustResult) (charts.Loss, error) {
	f, err := feedOf(w.boat, w.predictions[i].Layout, r.Engine)
	if err != nil {
		return charts.Loss{}, err
	}
	c, err := f.line.Curve(f.feed, f.options, lossFrequencies())
	if err != nil {
		return charts.Loss{}, badInput("%w", err)
	}
	out := charts.Loss{FrequencyHz: c.Frequency, TransmissionDB: numbers(c.TransmissionLoss), InsertionDB: numbers(c.InsertionLoss)}
	for _, row := range r.Running.Rows {
		if row.CutOn > 0 && (out.TrustedToHz == nil || row.CutOn < *out.TrustedToHz) {
			out.TrustedToHz = num(row.CutOn)
		}
	}
	for _, o := range strongest(r.Source.Orders, 8) {
		out.Orders = append(out.Orders, charts.Order{Order: o.Order, FrequencyHz: o.Frequency, LevelDB: level(o.Level),
			Firing: sameFrequency(o.Frequency, r.Source.FiringFrequency)})
	}
	return out, nil
}

// lossFrequencies are as fine as the chart: close below, where the orders are, 10 Hz above.
func lossFrequencies() (hz []float64) {
	for v := 20.0; v < 2000; v += min(10, max(1, v/25)) {
		hz = append(hz, v)
	}
	return append(hz, 2000)
}

func sameFrequency(a, b float64) bool { return a > 0 && (a-b)/a < 1e-6 && (b-a)/a < 1e-6 }

// reportChains takes the loudest route of every layout to the first listener.
func (w *worked) reportChains(r *charts.Report, order []int) {
	for at, i := range order {
		h := &w.predictions[i].Listeners[w.listener]
		if len(h.Routes) == 0 {
			continue
		}
		loudest := h.Routes[0]
		c := charts.Chain{Layout: at, Listener: w.listener, Source: loudest.Source, Route: loudest.Route, LevelDBA: level(loudest.DBA())}
		for _, s := range loudest.Steps {
			c.Links = append(c.Links, charts.Link{Name: s.Name, Formula: strings.Join(append([]string{s.Formula}, s.Notes...), "; "), Source: s.Source, Mark: s.Mark, BandsDB: bandValues(s.Bands)})
		}
		r.Chains = append(r.Chains, c)
	}
}

// reportSpeeds is how many speeds the page shows: every tenth of the rated one from 40 %; sweep shows more.
const reportSpeeds = 7

func (w *worked) reportSweeps(r *charts.Report, order []int) error {
	var layouts []*path.Layout
	for _, i := range order {
		layouts = append(layouts, w.predictions[i].Layout)
	}
	rated := sweep.RatedSpeed(layouts)
	if rated == 0 {
		return nil
	}
	speeds := make([]float64, reportSpeeds)
	for k := range speeds {
		speeds[k] = rated * (0.4 + 0.6*float64(k)/(reportSpeeds-1))
	}
	overLoad := sweep.OverLoad(layouts)
	if overLoad {
		speeds, r.OverLoad = loads, true
	}
	swept, err := sweepLayouts(context.Background(), w.boat, layouts, speeds, overLoad, path.Fast, nil)
	if err != nil {
		return err
	}
	for at, s := range swept {
		r.Sweeps = append(r.Sweeps, reportSweep(w, at, s))
	}
	over, missed := "engine speed the page shows %d speeds", ", and a boom between two speeds is missed; 'hushwake sweep' takes the full form at more speeds"
	if overLoad {
		over, missed = "the load of the set the page shows %d loads", "; 'hushwake sweep' takes the full form"
	}
	r.Warnings = append(r.Warnings, fmt.Sprintf("over "+over+" by the fast form, plane waves with corrections: levels may differ by up to 3 dB from the rest of the page"+missed, len(speeds)))
	return nil
}

func reportSweep(w *worked, at int, s sweep.Swept) charts.Sweep {
	out := charts.Sweep{Layout: at}
	for _, p := range s.Points {
		pt := charts.SweepPoint{SpeedRPM: p.Speed, LoadPercent: 100 * p.Load, PowerKW: num(p.Power / 1e3), BackPressureKPa: kilopascal(p.BackPressure)}
		for _, l := range p.Listeners {
			pt.LevelDBA = append(pt.LevelDBA, level(l.Level))
		}
		out.Points = append(out.Points, pt)
	}
	for _, b := range s.Booms {
		j, err := listenerIndex(w.boat, b.Listener)
		if err != nil {
			continue
		}
		out.Engine = b.Engine
		out.Booms = append(out.Booms, charts.Boom{SpeedRPM: b.Speed, Listener: j, Order: b.Order, FrequencyHz: b.Frequency, Text: b.Text})
	}
	return out
}
