package path

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"

	"hushwake/silencer"
	"hushwake/silencer/safety"
	"hushwake/source"
	"hushwake/source/cores"
	"hushwake/source/said"
)

// costAt is the back pressure that the engine's cost is worked out at, Pa; it is scaled from there,
// being close to linear up to a few tens of kPa.
const costAt = 5e3

// costMemo keeps the cost of costAt by engine and duty: layouts share it, and ask for it at once.
var costMemo = cores.Memo[string, source.Cost]{Most: 512}

// BackPressureCost is what a back pressure in Pa costs an engine at a duty in air, power and fuel.
// ok is false where the cylinder model gives none (no load, say).
func BackPressureCost(e source.Engine, d source.Duty, pa float64) (c source.Cost, ok bool) {
	text, err := json.Marshal(struct {
		E source.Engine
		D source.Duty
	}{e, d})
	if err != nil {
		return c, false
	}
	if c, err = costMemo.Get(string(text), func() (source.Cost, error) { return e.BackPressureCost(d, costAt) }); err != nil {
		return c, false
	}
	return costTimes(c, pa/costAt), true
}

// costTimes is the cost of k times its back pressure.
func costTimes(c source.Cost, k float64) source.Cost {
	c.Pressure *= k
	c.Air, c.Power, c.Fuel = k*c.Air, k*c.Power, k*c.Fuel
	c.SDAir, c.SDPower, c.SDFuel = k*c.SDAir, k*c.SDPower, k*c.SDFuel
	return c
}

// WithPressure is a line with its back pressures, what each element takes of them and what they cost times a factor.
func (r ExhaustResult) WithPressure(factor float64) ExhaustResult {
	r.Running, r.Rated = scaledLine(r.Running, factor), scaledLine(r.Rated, factor)
	if r.Cost != nil {
		c := costTimes(*r.Cost, factor)
		r.Cost = &c
	}
	return r
}

func scaledLine(m silencer.Marched, f float64) silencer.Marched {
	m.BackPressure *= f
	m.Rows = append([]silencer.Row(nil), m.Rows...)
	for i := range m.Rows {
		m.Rows[i].PressureLoss *= f
	}
	return m
}

// costOf is the cost at the running duty, for the full form.
func costOf(e *Engine, r ExhaustResult, form Form) (source.Cost, bool) {
	if form != Full {
		return source.Cost{}, false
	}
	return BackPressureCost(e.Engine, r.Source.Duty, r.Running.BackPressure)
}

// CyclesAhead are the cycles that the running engines of layouts are asked for in full, each to be worked out beside the
// others. They are remembered: who doesn't wait for them loses nothing but time.
func CyclesAhead(layouts []*Layout) (work []func()) {
	var known []*Engine
	for _, l := range layouts {
		for i := range l.Engines {
			e := &l.Engines[i]
			if e.Stopped || slices.ContainsFunc(known, func(k *Engine) bool { return reflect.DeepEqual(k.Engine, e.Engine) }) {
				continue
			}
			known = append(known, e)
			duty, _ := e.RunningDuty()
			work = append(work, func() { BackPressureCost(e.Engine, duty, costAt) }, func() { Full.engine(e.Engine, e.Rated) })
		}
	}
	return work
}

// costFinding says what the line's back pressure costs over the passage.
func costFinding(b *Boat, r *ExhaustResult) (safety.Finding, bool) {
	c := r.Cost
	if c == nil {
		return safety.Finding{}, false
	}
	f := safety.Finding{Code: "PRESSURE-COST", Severity: safety.Note, Element: r.Engine, Source: c.Source,
		Text: said.Textf("{%.1f kPa} of back pressure at the running duty cost %s about %.1f %% (± %.1f) of its air and %.1f %% (± %.1f) of its power, or %.1f %% (± %.1f) more fuel for the same power; each {1 kPa} more takes %s of the air and %s of the power.",
			c.Pressure/1e3, r.Engine, 100*c.Air, 100*c.SDAir, 100*c.Power, 100*c.SDPower, 100*c.Fuel, 100*c.SDFuel, perKilopascal(c.Air, c.Pressure), perKilopascal(c.Power, c.Pressure)),
		Action: "weigh it against the quiet it buys"}
	if p := b.Passage; p != nil && p.Hours > 0 && r.Source.FuelFlow > 0 && r.Source.FuelDensity > 0 {
		litres := float64(r.Source.FuelFlow) * 3600 * p.Hours / r.Source.FuelDensity * 1000
		f.Text += said.Textf(" Over the passage of %.0f h that is some {%.0f of %.0f litres}", p.Hours, litres*c.Fuel, litres)
		if p.FuelPrice > 0 {
			f.Text += fmt.Sprintf(", %.0f %s", litres*c.Fuel/1000*p.FuelPrice, b.Currency)
		}
		f.Text += "."
	}
	return f, true
}

// perKilopascal words a share lost at a pressure in Pa as one for each kPa; the cost is close to linear.
func perKilopascal(share, pa float64) string {
	if !(pa > 0) {
		return "0 %"
	}
	return fmt.Sprintf("%.2f %%", 100*share/pa*1e3)
}
