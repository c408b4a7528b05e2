package source

import (
	"fmt"
	"math"

	"hushwake/source/cycle"
)

const atmosphere = 101325.0 // Pa

// cylinder is one cylinder of the engine with the valves and timing usual for its kind.
func (e Engine) cylinder() cycle.Cylinder {
	kind := cycle.NaturalFour
	switch {
	case e.Stroke == TwoStroke:
		kind = cycle.UniflowTwo
	case e.fuel() != Diesel:
		kind = cycle.SparkFour
	case e.aspiration() != Natural:
		kind = cycle.BoostedFour
	}
	bore, stroke := e.boreAndStroke()
	return cycle.Usual(kind, bore, stroke)
}

func (e Engine) cycleFuel() cycle.Fuel {
	f := cycle.Fuel{HeatingValue: e.HeatingValue(), Stoichiometric: 14.6}
	if e.fuel() == NaturalGas {
		f.Stoichiometric = 17
	}
	return f
}

// chargeTemperature is that of boosted air behind its cooler, K (judgement).
const chargeTemperature = 330.0

// turbineRatio is the pressure before the turbine over that behind it, from the boost: most engines
// need a little less than they make (judgement).
func turbineRatio(boost float64) float64 { return math.Max(1, 0.95*boost) }

// cylinderRunning is the condition of one cylinder at a duty; linePressure is the gauge pressure in
// the exhaust line, Pa.
func (e Engine) cylinderRunning(d Duty, g, rated gasRates, linePressure float64) cycle.Running {
	r := cycle.Running{Speed: d.Speed, Fuel: e.cycleFuel(), AirFuelRatio: g.airFuel,
		IntakePressure: cycle.NaturalPressure, IntakeTemperature: cycle.NaturalTemperature,
		ExhaustPressure: atmosphere + linePressure}
	switch {
	case e.Stroke == TwoStroke:
		r.IntakeTemperature, r.IntakePressure = 298, atmosphere*math.Max(g.boost, 1.2)+linePressure
		r.Blower = &cycle.Blower{Delivered: g.air / (float64(e.Cylinders) * e.cyclesPerSecond(d.Speed)), Ambient: atmosphere}
		r.ExhaustPressure *= turbineRatio(0.9 * g.boost)
	case e.aspiration() != Natural:
		r.IntakePressure, r.IntakeTemperature = atmosphere*g.boost, chargeTemperature
		if e.aspiration() == Turbocharged {
			r.ExhaustPressure *= turbineRatio(g.boost)
		}
	case e.fuel() != Diesel: // throttled
		full := rated.air * d.Speed / e.Rated.Speed
		r.IntakePressure *= math.Min(math.Max(g.air/full, 0.3), 1)
	}
	return r
}

// Lines of the single-cylinder spectrum that are worked out.
const cycleLines = 160

// lineModelAt weighs the orders of one pipe by the cylinder's cycle at a duty.
func (e Engine) lineModelAt(d Duty, g, rated gasRates, coarse bool) (*lineModel, []string) {
	step := cycle.FineStep
	if coarse {
		step = cycle.CoarseStep
	}
	single, err := cycleOf(e.cylinder(), e.cylinderRunning(d, g, rated, 0), step)
	if err != nil {
		w := fmt.Sprintf("the cylinder model does not cover this engine (%v): orders inside each octave are weighted by a smooth pulse of 120 deg instead", err)
		lines := newLineModel(e, d.Speed, smoothPulse(e.period()))
		lines.swing = nil // a smooth pulse weighs orders, it bounds none
		return lines, []string{w}
	}
	return newLineModel(e, d.Speed, single.lines), nil
}

// smoothPulse is the spectrum of a raised-cosine pulse that lasts 120 deg of crank.
func smoothPulse(period float64) []float64 { return cycle.Lines(smoothSignal(period), cycleLines) }

func smoothSignal(period float64) []float64 {
	signal := make([]float64, 720)
	long := 2 * math.Pi / 3 / period * float64(len(signal))
	for i := range signal {
		if x := float64(i) / long; x < 1 {
			signal[i] = 1 - math.Cos(2*math.Pi*x)
		}
	}
	return signal
}
