package path

import (
	"fmt"
	"math"

	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/gas"
	"hushwake/source/spectrum"
)

// Form is how finely a layout is predicted.
type Form int

// Forms of a prediction.
const (
	Full   Form = iota // modes where every part is centred
	Routes             // full, without what back pressure costs and what neighbours may ask
	Points             // the same without findings, with modes at some frequencies and rational functions between: for many speeds
	Fast               // plane waves with corrections throughout
)

// Fast tells whether plane waves stand for modes.
func (f Form) Fast() bool { return f == Fast }

// Options is how lines are calculated in a layout: full corrections, ceiling on.
func (f Form) Options() silencer.Options {
	o := silencer.Options{Ceiling: true, Rational: f == Points}
	if f.Fast() {
		o.Method = "plane"
	}
	return o
}

// engine is the engine at a duty, in the fast form by the coarser cycle; source remembers the cycles.
func (f Form) engine(e source.Engine, d source.Duty) (source.Result, error) {
	if f.Fast() {
		return e.QuickAt(d)
	}
	return e.At(d)
}

// Feed is what an engine's result sends into its line: that of one pipe where banks have their own.
func Feed(s source.Result, air Weather) silencer.Feed {
	return silencer.Feed{
		Gas:         gas.Gas{Kind: gas.Exhaust, AirFuelRatio: s.AirFuelRatio},
		MassFlow:    s.PipeFlow,
		Temperature: s.Temperature,
		Ambient:     air.Temperature,
		Lines:       s.Orders,
		Broadband:   s.Broadband,
		Firing:      s.FiringFrequency,
		Swing:       s.Swing,
	}
}

// BenchFeed is what a bench sends into its line.
func BenchFeed(b *Bench) (silencer.Feed, silencer.Options) {
	o := silencer.Options{Walls: b.Walls, Corrections: b.Corrections, Method: b.Method}
	return silencer.Feed{
		Gas: b.Gas, MassFlow: source.PipeFlow(b.MassFlow), Temperature: b.Temperature, Ambient: b.Temperature,
		Broadband: spectrum.Bands{}, Isothermal: true,
	}, o
}

// Sources is an engine at running and at rated.
func (f Form) Sources(e *Engine) (r ExhaustResult, err error) {
	r = ExhaustResult{Engine: e.Name, Limit: e.Limit}
	duty, assumed := e.RunningDuty()
	if r.Source, err = f.engine(e.Engine, duty); err != nil {
		return r, fmt.Errorf("engine %s: %w", e.Name, err)
	}
	if assumed != nil {
		r.Source.Assumptions = append(r.Source.Assumptions[:len(r.Source.Assumptions):len(r.Source.Assumptions)], *assumed)
	}
	if r.RatedSource, err = f.engine(e.Engine, e.Rated); err != nil {
		return r, fmt.Errorf("engine %s at rated: %w", e.Name, err)
	}
	return r, nil
}

// RunningFeed is what an engine sends down its line at its running duty, as predictions have it.
func RunningFeed(b *Boat, e *Engine) (silencer.Feed, error) {
	r, err := Full.Sources(e)
	if err != nil {
		return silencer.Feed{}, err
	}
	running, _ := Feeds(b, r)
	return running, nil
}

// Solve adds one exhaust line at running and at rated to its engine; where it is known at rated already that stays.
func (r *ExhaustResult) Solve(b *Boat, e *Engine, x *Exhaust, form Form) error {
	o := form.Options()
	running, rated := Feeds(b, *r)
	line, err := x.Line.Solve(running, o)
	if err != nil {
		return fmt.Errorf("exhaust of %s: %w", e.Name, err)
	}
	r.Running, r.Acoustics = line.March(), line.Acoustics()
	r.AlongPipe = Flank(&r.Acoustics)
	if r.Rated.Rows == nil {
		if r.Rated, err = x.Line.March(rated, o); err != nil {
			return fmt.Errorf("exhaust of %s at rated: %w", e.Name, err)
		}
	}
	r.Unsilenced = r.Source.Exhaust.Bands
	r.Shells = line.Shells(r.Unsilenced)
	r.OutletPower = spectrum.SumBands(r.Unsilenced.Minus(r.Acoustics.InsertionLoss), r.Acoustics.SelfNoise)
	r.InsertionDBA = r.Unsilenced.DBA() - r.OutletPower.DBA()
	r.PressureTerms, r.Promised = pressureTerms(e, x, r.Rated), x.Promised
	if c, ok := costOf(e, *r, form); ok {
		r.Cost = &c
	}
	return nil
}

// March adds one exhaust line at running and at rated to its engine without its sound.
func (r *ExhaustResult) March(b *Boat, e *Engine, x *Exhaust, form Form) (err error) {
	running, rated := Feeds(b, *r)
	if r.Running, err = x.Line.March(running, form.Options()); err == nil {
		r.Rated, err = x.Line.March(rated, form.Options())
	}
	r.PressureTerms, r.Promised = pressureTerms(e, x, r.Rated), x.Promised
	return err
}

// Feeds gives what the engine sends down the line at running and at rated.
func Feeds(b *Boat, r ExhaustResult) (running, rated silencer.Feed) {
	running, rated = Feed(r.Source, b.Air), Feed(r.RatedSource, b.Air)
	for _, f := range []*silencer.Feed{&running, &rated} {
		f.RatedFlow = r.RatedSource.PipeFlow
		f.RatedDBA = r.RatedSource.Exhaust.Bands.DBA()
	}
	running.WaterShare = math.Min(1, r.Source.Duty.Speed/r.RatedSource.Duty.Speed)
	return running, rated
}

// pressureTerms names what makes the back pressure uncertain, relative standard deviations.
func pressureTerms(e *Engine, x *Exhaust, rated silencer.Marched) []PressureTerm {
	flow, temperature := 0.10, 0.03
	if e.Flow > 0 {
		flow = 0.05
	}
	if e.Temperature > 0 {
		temperature = 0.015
	}
	element := 0.0
	x.Line.Each(func(e silencer.Element) { element = math.Max(element, e.LossSD()) })
	const judgement = "judgement"
	return []PressureTerm{
		// loss goes with flow squared, and with absolute temperature
		{Term: "flow", Key: "flow/" + e.Name, SD: 2 * flow, Source: judgement},
		{Term: "temperature", Key: "temperature/" + e.Name, SD: temperature, Source: judgement},
		{Term: "loss", Key: "loss/" + e.Name, SD: 0.10, Source: judgement + ": roughness and fittings, shared"},
		{Term: "element model", Key: "loss model", Mix: x.Line.LossMix(rated), SD: element, Source: judgement},
	}
}

// Wet says whether water is injected into a line of the layout.
func (l *Layout) Wet() bool {
	for i := range l.Exhausts {
		if l.Exhausts[i].Line.Wet() {
			return true
		}
	}
	return false
}
