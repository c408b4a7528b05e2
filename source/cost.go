package source

import (
	"fmt"
	"math"

	"hushwake/source/cycle"
	"hushwake/source/published"
)

// Cost is what a back pressure takes from an engine at a duty, as fractions (0.01 = 1 %).
type Cost struct {
	Pressure               float64 // Pa of back pressure
	Air                    float64 // of the air passed, lost
	Power                  float64 // of the brake power, lost at the same fuel
	Fuel                   float64 // of the fuel, burned in addition at the same power
	SDAir, SDPower, SDFuel float64
	published.Cited
}

// costRange is the greatest back pressure the comparison is made for, Pa.
const costRange = 50e3

// costSD is the relative standard deviation of a cost: residual gas, thinner air and combustion add
// to pumping by a factor of 1.5 to 2 that a single zone sees only in part (judgement).
const costSD = 0.4

// BackPressureCost compares one cylinder's cycle with and without a back pressure in Pa at a duty,
// fuel kept: how much less air it passes, and what work is lost. A blower keeps its displacement and
// leaks 10 % at the pressure it makes without the line; a turbine keeps its pressure ratio; both are
// judgement. 0 to 50 kPa. The engine maker's limit governs whatever this says.
func (e Engine) BackPressureCost(d Duty, dpPa float64) (Cost, error) {
	if _, err := e.Check(); err != nil {
		return Cost{}, err
	}
	if err := e.checkDuty(d); err != nil {
		return Cost{}, err
	}
	if !(dpPa >= 0 && dpPa <= costRange) {
		return Cost{}, e.refuse(fmt.Sprintf("a back pressure of %.4g kPa", dpPa/1e3), "the cost model takes 0 to 50 kPa")
	}
	if d.Power <= 0 {
		return Cost{}, e.refuse("the cost of back pressure at no load", "ask at a duty with power")
	}
	rated, _ := e.ratedRates()
	g := e.ratesAt(d, rated)
	free, laden, err := e.twoCycles(e.cylinderRunning(d, g, rated, 0), e.cylinderRunning(d, g, rated, dpPa))
	if err != nil {
		return Cost{}, fmt.Errorf("cost of back pressure: %w", err)
	}
	if free.Work-free.BlowerWork <= 0 {
		return Cost{}, e.refuse("the cylinder model gives no work at "+dutyText(d), "ask for the cost of back pressure at a higher load")
	}
	return e.compareCycles(d, dpPa, free, laden), nil
}

// twoCycles runs the cylinder freely and, with the same fuel and the same blower, against the line.
func (e Engine) twoCycles(free, laden cycle.Running) (a, b *cycle.Result, err error) {
	c := e.cylinder()
	alone, err := cycleOf(c, free, cycle.FineStep)
	if err != nil {
		return nil, nil, err
	}
	a = &alone.Result
	if free.Blower != nil {
		sized := sizedBlower(free, a.BoxPressure, c.Period())
		free.Blower, laden.Blower = sized, sized
		free.IntakePressure, laden.IntakePressure = a.BoxPressure, a.BoxPressure+laden.ExhaustPressure-free.ExhaustPressure
		if a, err = cycle.Run(c, free, cycle.FineStep); err != nil {
			return nil, nil, err
		}
	}
	laden.FuelMass = a.Fuel
	b, err = cycle.Run(c, laden, cycle.FineStep)
	return a, b, err
}

// blowerLeak is the share of a blower's displacement that leaks back at the box pressure (judgement).
const blowerLeak = 0.10

// sizedBlower finds the displacement that delivers the wanted air at a box pressure.
func sizedBlower(r cycle.Running, box, period float64) *cycle.Blower {
	b := *r.Blower
	volume := b.Delivered * 287 * r.IntakeTemperature / b.Ambient
	swept := volume / (1 - blowerLeak)
	cycleTime := period / (r.Speed * math.Pi / 30)
	rise := math.Max(box-b.Ambient, 1)
	return &cycle.Blower{Swept: swept, Leak: blowerLeak * swept / (math.Sqrt(rise) * cycleTime), Ambient: b.Ambient}
}

func (e Engine) compareCycles(d Duty, dpPa float64, free, laden *cycle.Result) Cost {
	lost := (free.Work - free.BlowerWork) - (laden.Work - laden.BlowerWork)
	brake := d.Power / (float64(e.Cylinders) * e.cyclesPerSecond(d.Speed))
	c := Cost{Pressure: dpPa,
		Air: 1 - laden.Air/free.Air, Power: lost / brake, Fuel: lost / (free.Work - free.BlowerWork),
		Cited: published.By("one cylinder's cycle with and without the back pressure, fuel kept", "single-zone cycle, Wiebe heat release, Woschni heat loss; uncertainty is judgement", "derived")}
	c.SDAir, c.SDPower, c.SDFuel = costSD*math.Abs(c.Air), costSD*math.Abs(c.Power), costSD*math.Abs(c.Fuel)
	return c
}
