package source

import (
	"fmt"
	"math"
	"sort"

	"hushwake/source/said"
)

// Limits of what the models here were made for.
const (
	maxSpeed     = 8000.0 // rpm
	minSpeed     = 40.0   // rpm
	maxCylinders = 24
	maxPower     = 50e6 // W
)

// Check refuses engines that cannot exist or lie outside every model here, and warns about odd ones.
func (e Engine) Check() (warnings []string, err error) {
	for _, test := range []func() error{e.checkBody, e.checkRated, e.checkRunning, e.checkFiring, e.checkStated} {
		if err := test(); err != nil {
			return nil, err
		}
	}
	return e.named(e.oddities()), nil
}

// named puts the engine's name before each warning.
func (e Engine) named(warnings []string) []string {
	if e.Name == "" {
		return warnings
	}
	out := make([]string, len(warnings))
	for i, w := range warnings {
		out[i] = e.Name + ": " + w
	}
	return out
}

func (e Engine) refuse(text, hint string) error {
	name := e.Name
	if name == "" {
		name = "engine"
	}
	return fmt.Errorf("%s: %s\nhint: %s", name, said.Plain(text), said.Plain(hint))
}

func (e Engine) checkBody() error {
	switch {
	case e.Stroke != TwoStroke && e.Stroke != FourStroke:
		return e.refuse("the cycle is not stated", "give two-stroke or four-stroke")
	case e.Cylinders <= 0:
		return e.refuse(fmt.Sprintf("%d cylinders", e.Cylinders), "give the number of cylinders, 1 or more")
	case e.Cylinders > maxCylinders:
		return e.refuse(fmt.Sprintf("%d cylinders are more than the %d this model knows", e.Cylinders, maxCylinders),
			"give the cylinders of one engine; list two engines separately")
	case e.Banks < 0 || e.Banks > e.Cylinders:
		return e.refuse(fmt.Sprintf("%d banks for %d cylinders", e.Banks, e.Cylinders), "give at least one cylinder to each bank, or leave banks out")
	case e.Arrangement == Vee && e.Cylinders%2 != 0:
		return e.refuse(fmt.Sprintf("a vee engine with %d cylinders", e.Cylinders), "a vee needs an even number; else say inline")
	}
	return nil
}

// positive tells whether x is a finite number above zero.
func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }

func (e Engine) checkRated() error {
	r := e.Rated
	switch {
	case !positive(r.Power):
		return e.refuse(fmt.Sprintf("rated power %s", kilowatts(r.Power)), "give the rated crankshaft power, more than 0 kW")
	case !positive(r.Speed):
		return e.refuse(fmt.Sprintf("rated speed %s", rpmText(r.Speed)), "give the rated speed in rpm, more than 0")
	case r.Power > maxPower:
		return e.refuse(fmt.Sprintf("rated power %s is beyond the %s of this model", kilowatts(r.Power), kilowatts(maxPower)), "check the unit: kW, hp or W")
	case r.Speed > maxSpeed:
		return e.refuse(fmt.Sprintf("rated speed %s is beyond the %s of this model", rpmText(r.Speed), rpmText(maxSpeed)), "check the digits; a turbocharger's speed is not the engine's")
	case r.Speed < minSpeed:
		return e.refuse(fmt.Sprintf("rated speed %s is below the %s of this model", rpmText(r.Speed), rpmText(minSpeed)), "give revolutions per minute, not per second")
	}
	return e.checkPistonSpeed()
}

// checkPistonSpeed refuses mean piston speeds that no engine stands (2 s n above 30 m/s).
func (e Engine) checkPistonSpeed() error {
	_, piston := e.boreAndStroke()
	if v := 2 * piston * e.Rated.Speed / 60; e.sizeStated() && v > 30 {
		return e.refuse(fmt.Sprintf("the piston would move at %.0f m/s on average at %s", v, rpmText(e.Rated.Speed)),
			"check rated speed, displacement, bore and stroke; engines stay below about 20 m/s")
	}
	return nil
}

func (e Engine) checkRunning() error {
	if e.Running == (Duty{}) {
		return nil
	}
	d := e.Running
	if bad := math.IsNaN(d.Power) || math.IsNaN(d.Speed) || d.Power < 0 || d.Speed < 0; bad {
		return e.refuse(fmt.Sprintf("running at %s", dutyText(d)), "give a running power and speed of 0 or more, or leave running out")
	}
	filled, _ := e.RunningDuty()
	return e.checkDuty(filled)
}

// checkDuty refuses duties that the engine cannot give.
func (e Engine) checkDuty(d Duty) error {
	const slack = 1.005 // rounding in hp, kW and rpm
	switch {
	case !positive(d.Speed):
		return e.refuse(fmt.Sprintf("running at %s", rpmText(d.Speed)), "give a running speed in rpm, or `running: stopped`")
	case !(d.Power >= 0) || math.IsInf(d.Power, 1):
		return e.refuse(fmt.Sprintf("running power %s", kilowatts(d.Power)), "give the power delivered, 0 kW or more")
	case d.Speed > slack*e.Rated.Speed:
		return e.refuse(fmt.Sprintf("running at %s is above the rated %s", rpmText(d.Speed), rpmText(e.Rated.Speed)),
			fmt.Sprintf("run at or below %s, or correct the rated speed", rpmText(e.Rated.Speed)))
	case d.Power > slack*e.Rated.Power:
		return e.refuse(fmt.Sprintf("running at %s is above the rated %s", kilowatts(d.Power), kilowatts(e.Rated.Power)),
			fmt.Sprintf("run at or below %s, or correct the rated power", kilowatts(e.Rated.Power)))
	case e.LoadFraction(d) > 2:
		return e.refuse(fmt.Sprintf("%s asks for %.1f times the rated torque", dutyText(d), e.LoadFraction(d)),
			fmt.Sprintf("the propeller law gives %s at that speed", kilowatts(Engine{Rated: e.Rated, Load: Propeller}.DutyAt(d.Speed).Power)))
	}
	return nil
}

func (e Engine) checkFiring() error {
	if n := len(e.FiringOrder); n > 0 {
		if n != e.Cylinders {
			return e.refuse(fmt.Sprintf("the firing order names %d cylinders of %d", n, e.Cylinders), "name each cylinder once")
		}
		seen := append([]int(nil), e.FiringOrder...)
		sort.Ints(seen)
		for i, c := range seen {
			if c != i+1 {
				return e.refuse(fmt.Sprintf("the firing order %v does not name each of 1 to %d once", e.FiringOrder, e.Cylinders), "check the order in the engine's manual")
			}
		}
	}
	if n := len(e.FiringAngles); n > 0 && n != e.Cylinders {
		return e.refuse(fmt.Sprintf("%d firing angles for %d cylinders", n, e.Cylinders), "give one angle for each cylinder")
	}
	for _, a := range e.FiringAngles {
		if math.IsNaN(a) || math.IsInf(a, 0) {
			return e.refuse("a firing angle is not a number", "give crank angles in the order of firing")
		}
	}
	if s := e.Scatter; s != nil && !(*s >= 0 && *s <= 0.5) {
		return e.refuse(fmt.Sprintf("a difference between cylinders of %.3g", *s), "give a fraction between 0 and 0.5; 0.1 is usual")
	}
	return nil
}

// checkStated refuses impossible values in the optional fields.
func (e Engine) checkStated() error {
	for _, f := range []struct {
		name   string
		value  float64
		hi     float64
		advice string
	}{
		{"displacement", e.Displacement, 10, "give all cylinders together"},
		{"bore", e.Bore, 2, "give the bore of a cylinder"},
		{"piston stroke", e.Piston, 4, "give the stroke of a piston"},
		{"exhaust flow", e.Flow, 1000, "give kg/s at rated, or leave it out"},
		{"exhaust temperature", e.Temperature, 1500, "give the gas temperature at rated, or leave it out"},
		{"air-fuel ratio", e.AirFuelRatio, 200, "give kg of air per kg of fuel, or leave it out"},
		{"fuel consumption", e.FuelConsumption, 1500 / 3.6e9, "give g/kWh at rated, or leave it out"},
		{"bank angle", e.BankAngle, math.Pi, "give the angle between the banks, 0 to 180 deg"},
	} {
		if !(f.value >= 0 && f.value <= f.hi) {
			return e.refuse(fmt.Sprintf("%s %.4g is not possible", f.name, f.value), f.advice)
		}
	}
	if t := e.Temperature; t != 0 && t < 320 {
		return e.refuse(fmt.Sprintf("exhaust at %s", celsius(t)), "give the dry gas temperature at the manifold or turbine outlet, at rated")
	}
	if r := e.AirFuelRatio; r != 0 && r < 10 {
		return e.refuse(fmt.Sprintf("air-fuel ratio %.3g", r), "engines burn 13 kg of air or more per kg of fuel; give air over fuel by mass")
	}
	if g := e.Generator; g != nil && !(g.Power >= 0 && g.Power <= e.Rated.Power*1.02) {
		return e.refuse(fmt.Sprintf("a generator of %s on an engine of %s", kilowatts(g.Power), kilowatts(e.Rated.Power)), "rated is the power at the shaft and lies above the electrical one")
	}
	return e.checkEfficiency()
}

func (e Engine) checkEfficiency() error {
	if e.FuelConsumption == 0 {
		return nil
	}
	if eff := 1 / (e.FuelConsumption * e.HeatingValue()); eff > 0.6 {
		return e.refuse(fmt.Sprintf("%s would turn %.0f %% of the fuel into work", gramsPerKWh(e.FuelConsumption), 100*eff), "diesels burn about 200 to 280 g/kWh")
	}
	return nil
}
