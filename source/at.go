package source

import (
	"fmt"

	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// At gives the engine at a duty: levels, orders, flow and temperature, every default listed.
func (e Engine) At(d Duty) (Result, error) { return e.at(d, false) }

// QuickAt is At with a coarser cycle calculation, for sweeps over many duties: flow and casing are the
// same, exhaust levels and orders differ by tenths of a dB.
func (e Engine) QuickAt(d Duty) (Result, error) { return e.at(d, true) }

func (e Engine) at(d Duty, coarse bool) (Result, error) {
	warnings, err := e.Check()
	if err != nil {
		return Result{}, err
	}
	if err := e.checkDuty(d); err != nil {
		return Result{}, err
	}
	r := Result{Duty: d, Load: e.LoadFraction(d), Pipes: Pipes(e.pipes()), Warnings: append(warnings, e.named(e.dutyOddities(d))...)}
	r.FiringFrequency, r.CycleFrequency = e.PipeFiring(d.Speed), e.CycleFrequency(d.Speed)
	rated, notes := e.ratedRates()
	r.Assumptions = append(r.Assumptions, notes...)
	r.Warnings = append(r.Warnings, e.named(e.crossCheck(rated))...)
	g := e.ratesAt(d, rated)
	e.setFlow(&r, g)
	lines, lineWarnings := e.lineModelAt(d, g, rated, coarse)
	r.Warnings = append(r.Warnings, e.named(lineWarnings)...)
	r.Exhaust = e.exhaustPart(d, lines).each(r.Pipes)
	r.Swing = lines.firingSwing(e.aspiration() == Turbocharged)
	r.Orders, r.Broadband = lines.split(r.Exhaust.Bands)
	if e.ExhaustLevel == nil {
		e.holdToFlow(&r, lines)
		r.Exhaust.Part = r.Exhaust.with(r.sorted())
	}
	r.Casing, r.Intake, r.Alternator = e.casingPart(d, lines), e.intakePart(), e.alternatorPart(d)
	r.Assumptions = append(append(append(r.Assumptions, e.defaultNotes()...), e.firingNotes()...), e.casingNotes()...)
	return r, nil
}

func (e Engine) setFlow(r *Result, g gasRates) {
	r.EngineFlow, r.FuelFlow = EngineFlow(g.exhaust), EngineFlow(g.fuel)
	r.PipeFlow = r.EngineFlow.Each(r.Pipes)
	r.FuelDensity = e.Fuel.Density()
	r.Temperature, r.AirFuelRatio = g.temperature, g.airFuel
}

func (e Engine) dutyOddities(d Duty) (w []string) {
	if m := e.LoadFraction(d); m > 1.25 {
		w = append(w, fmt.Sprintf("%s asks for %.2f times the rated torque; the load term -10 (1 - M) dB was made for 0 to 1.25", dutyText(d), m))
	}
	if f := e.PipeFiring(d.Speed); f < 22.4 {
		w = append(w, fmt.Sprintf("the firing frequency of %.3g Hz lies under the 31.5 Hz octave, where no level is known; its harmonics are listed", f))
	}
	if e.pipes() > 1 {
		w = append(w, fmt.Sprintf("exhaust level and flow are those of one of %d pipes", e.pipes()))
	}
	return w
}

// ExhaustDBA is the A-weighted exhaust sound power of one pipe, dB(A), orders at their own frequency.
func (r Result) ExhaustDBA() float64 {
	sum := spectrum.Power(r.Broadband.DBA())
	for _, o := range r.Orders {
		sum += spectrum.Power(o.Level + spectrum.AAt(o.Frequency))
	}
	return spectrum.Level(sum)
}

// defaultNotes lists defaults that are not about flow or firing.
func (e Engine) defaultNotes() (a []Assumption) {
	if e.Aspiration == 0 {
		v := "natural"
		if e.Stroke == TwoStroke {
			v = "blower"
		}
		a = append(a, *e.assume("aspiration", v, "the usual one for the cycle; a turbocharger takes 6 dB off the exhaust", 6))
	}
	if e.Fuel == 0 {
		a = append(a, *e.assume("fuel", "diesel", "the usual one in boats", 0))
	}
	if !e.sizeStated() {
		a = append(a, *e.assume("displacement", said.Textf("{%.3g L}", e.swept()*1e3),
			fmt.Sprintf("from a mean effective pressure of %.0f bar (from memory); used for the pulse shape only", e.usualBMEP()/1e5), 0.5))
	}
	if e.Generator != nil && e.Generator.Power == 0 {
		a = append(a, *e.assume("generator.power", kilowatts(e.electricalPower()), "87 % of the shaft power (judgement)", 0.5))
	}
	return a
}
