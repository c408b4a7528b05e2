package source

import (
	"fmt"
	"math"
	"strconv"

	"hushwake/source/said"
)

// defaultSpeed is the share of rated speed at which a propeller engine is run when nothing is said.
const defaultSpeed = 0.8

// LoadLaw is the load law with its default filled in: constant speed for a generator, else the
// propeller law.
func (e Engine) LoadLaw() Load {
	switch {
	case e.Load != 0:
		return e.Load
	case e.Generator != nil:
		return ConstantSpeed
	}
	return Propeller
}

// cubic is the exponent of power over speed that a propeller has where none is stated: a hull that displaces water (common
// practice; test cycle E3 of ISO 8178-4 keeps to it). A planing boat is nearer to 2.5 (cycle E4).
const cubic = 3.0

// propellerPower is the share of rated power that a propeller takes at a share of rated speed, x^n; n = 0 is the cube.
func propellerPower(x, n float64) float64 {
	if n == 0 || n == cubic {
		return x * x * x
	}
	return math.Pow(x, n)
}

// propellerSpeed is the share of rated speed at a share of rated power.
func propellerSpeed(x, n float64) float64 {
	if n == 0 || n == cubic {
		return math.Cbrt(x)
	}
	return math.Pow(x, 1/n)
}

// DutyAt is the duty at a speed in rpm on the engine's load law: power with a power of speed for
// a propeller; rated torque for a constant-speed engine, whose power at a fixed speed is the user's.
func (e Engine) DutyAt(speed float64) Duty {
	r := speed / e.Rated.Speed
	if e.LoadLaw() == ConstantSpeed {
		return Duty{Power: e.Rated.Power * r, Speed: speed}
	}
	return Duty{Power: e.Rated.Power * propellerPower(r, e.Exponent), Speed: speed}
}

// DutyThrough is the duty at a speed in rpm, none above rated, on the load law bent to pass through a running duty that the owner
// stated in full: under it by the same factor as there, over it by one that goes to 1 at rated with the logarithm of speed, so
// that both stated duties lie on it (judgement; a propeller that a hull asks more or less of than the law).
func (e Engine) DutyThrough(speed float64) Duty {
	run, n := e.Running, math.Min(speed, e.Rated.Speed)
	d := e.DutyAt(n)
	switch {
	case !(run.Power > 0 && run.Speed > 0):
		return d
	case n == run.Speed:
		return run
	}
	off := run.Power / e.DutyAt(run.Speed).Power
	if n > run.Speed {
		off = math.Pow(off, math.Log(e.Rated.Speed/n)/math.Log(e.Rated.Speed/run.Speed))
	}
	d.Power *= off
	return d
}

// RunningDuty is the duty to be predicted. If the owner did not state one, it is 80 % of rated
// speed on the propeller law, or rated for a constant-speed engine, and the assumption says so.
func (e Engine) RunningDuty() (Duty, *Assumption) {
	run := e.Running
	switch {
	case run.Power > 0 && run.Speed > 0:
		return run, nil
	case run.Speed > 0:
		d := e.DutyAt(run.Speed)
		return d, e.assume("running.power", kilowatts(d.Power), e.lawText(), 2)
	case run.Power > 0 && e.LoadLaw() == ConstantSpeed:
		d := Duty{Power: run.Power, Speed: e.Rated.Speed}
		return d, e.assume("running.speed", rpmText(d.Speed), "constant speed: rated speed", 0)
	case run.Power > 0:
		d := Duty{Power: run.Power, Speed: e.Rated.Speed * propellerSpeed(run.Power/e.Rated.Power, e.Exponent)}
		return d, e.assume("running.speed", rpmText(d.Speed), e.lawText(), 1)
	case e.LoadLaw() == ConstantSpeed:
		return e.Rated, e.assume("running", dutyText(e.Rated), "constant-speed engine: rated duty", 2)
	}
	d := e.DutyAt(defaultSpeed * e.Rated.Speed)
	return d, e.assume("running", dutyText(d), "80 % of rated speed on the propeller law (judgement)", 3)
}

// LoadFraction is the torque at a duty as a fraction of the rated torque.
func (e Engine) LoadFraction(d Duty) float64 {
	return d.Power / d.Speed * e.Rated.Speed / e.Rated.Power
}

func (e Engine) assume(field, value, why string, db float64) *Assumption {
	return &Assumption{Field: e.fieldName(field), Value: value, Source: why, PlusMinusDB: db}
}

func (e Engine) fieldName(field string) string {
	if e.Name == "" {
		return field
	}
	return "engines." + e.Name + "." + field
}

func (e Engine) lawText() string {
	if e.LoadLaw() == ConstantSpeed {
		return "rated torque at that speed (constant-speed engine)"
	}
	if e.Exponent != 0 && e.Exponent != cubic {
		return fmt.Sprintf("propeller law, power with speed to the power of %g, as stated", e.Exponent)
	}
	return "propeller law, power with the cube of speed (common practice)"
}

func kilowatts(w float64) string { return said.Textf("{%.4g kW}", w/1e3) }
func rpmText(n float64) string {
	return strconv.FormatFloat(math.Round(10*n)/10, 'f', -1, 64) + " rpm"
}
func dutyText(d Duty) string       { return kilowatts(d.Power) + " at " + rpmText(d.Speed) }
func celsius(k float64) string     { return said.Textf("{%.0f °C}", k-273.15) }
func massFlow(kgs float64) string  { return said.Textf("{%.4g kg/s}", kgs) }
func gramsPerKWh(b float64) string { return said.Textf("{%.4g g/kWh}", b*3.6e9) }
