package verify

import (
	"fmt"
	"math"

	"hushwake/source"
	"hushwake/source/cycle"
	"hushwake/source/spectrum"
)

// sourceChecks are the published values of packages source and cycle. Powers in W, speeds in rpm; a
// flag is 1 for a turbocharger; a stroke is 2 or 4.
var sourceChecks = map[string]checkFunc{
	"source.CasingBase":      two(source.CasingBase),
	"source.AlternatorBase":  two(source.AlternatorBase),
	"source.InletBase":       one(source.InletBase),
	"source.ExhaustBase":     two(func(p, turbo float64) float64 { return source.ExhaustBase(p, turbo == 1) }),
	"source.Row":             rowCheck,
	"source.RowA":            rowSumCheck,
	"source.LoadChange":      func([]float64) (float64, error) { return loadChange() },
	"source.TurboLoss":       turboLoss,
	"source.FiringFrequency": firingCheck,
	"source.OrderStrength":   engineOrderCheck,
	"source.Flow":            engineFlowCheck,
	"source.PowerCost":       backPressureCostCheck,

	"cycle.OpeningPressure":    cylinderCheck(func(r *cycle.Result) float64 { return r.OpeningPressure }),
	"cycle.OpeningTemperature": cylinderCheck(func(r *cycle.Result) float64 { return r.OpeningTemperature }),
	"cycle.MassResidual":       cylinderCheck(func(r *cycle.Result) float64 { return r.MassResidual }),
	"cycle.EnergyResidual":     cylinderCheck(func(r *cycle.Result) float64 { return r.EnergyResidual }),
	"cycle.FiringLine":         firingLine,
}

var _ = register(sourceChecks)

var handbookRows = []string{"exhaust", "casing under 600 rpm", "casing 600 to 1500 rpm",
	"casing 600 to 1500 rpm with Roots blower", "casing over 1500 rpm", "turbocharger inlet", "generator"}

func rowOf(x float64) (spectrum.Bands, error) {
	if i := int(x); i >= 0 && i < len(handbookRows) {
		b, _, err := source.OctaveRow(handbookRows[i])
		return b, err
	}
	return spectrum.Bands{}, fmt.Errorf("no octave row %g", x)
}

func rowCheck(a []float64) (float64, error) {
	return curveCheck(rowOf)(a)
}

// rowSumCheck re-sums a row with the A-weights.
func rowSumCheck(a []float64) (float64, error) {
	if err := wants(a, 1); err != nil {
		return 0, err
	}
	b, err := rowOf(a[0])
	return spectrum.Bands{}.Minus(b).DBA(), err
}

func plain(stroke source.Stroke, cylinders int) source.Engine {
	none := 0.0
	e := source.Engine{Stroke: stroke, Cylinders: cylinders, Scatter: &none, Rated: source.Duty{Power: 100e3, Speed: 2400}}
	if stroke == source.TwoStroke {
		e.Aspiration = source.Blower
	}
	return e
}

// loadChange is the fall of exhaust level from full load to none at one speed, dB(A).
func loadChange() (float64, error) {
	e := plain(source.FourStroke, 6)
	full, err := e.At(e.Rated)
	if err != nil {
		return 0, err
	}
	idle, err := e.At(source.Duty{Power: 0, Speed: e.Rated.Speed})
	return full.Exhaust.Bands.DBA() - idle.Exhaust.Bands.DBA(), err
}

func turboLoss(a []float64) (float64, error) {
	if err := wants(a, 1); err != nil {
		return 0, err
	}
	return source.ExhaustBase(a[0], false) - source.ExhaustBase(a[0], true), nil
}

func firingCheck(a []float64) (float64, error) {
	if err := wants(a, 3); err != nil {
		return 0, err
	}
	stroke := source.FourStroke
	if a[0] == 2 {
		stroke = source.TwoStroke
	}
	return plain(stroke, int(a[1])).FiringFrequency(a[2]), nil
}

// orderEngines are the rows of the order table.
func orderEngines(kind int) (source.Engine, error) {
	inline := map[int]int{1: 4, 2: 6, 3: 3, 4: 5, 5: 2, 6: 2, 10: 6}
	vee := map[int]int{7: 8, 8: 6, 9: 6, 11: 8}
	e := plain(source.FourStroke, inline[kind]+vee[kind])
	if vee[kind] > 0 {
		e.Arrangement = source.Vee
	}
	switch kind {
	case 6:
		e.FiringAngles = []float64{0, math.Pi}
	case 7:
		e.Banks, e.FiringOrder = 2, []int{1, 8, 4, 3, 6, 5, 7, 2}
	case 8:
		e.BankAngle = math.Pi / 2
	case 9, 10:
		e.Banks = 2
	}
	if e.Cylinders == 0 {
		return e, fmt.Errorf("no engine %d in the order table", kind)
	}
	return e, nil
}

func engineOrderCheck(a []float64) (float64, error) {
	if err := wants(a, 2); err != nil {
		return 0, err
	}
	e, err := orderEngines(int(a[0]))
	return source.PulseTrain(e.Pulses(), a[1], 0), err
}

// engineFlowCheck takes kind (0 natural, 1 turbocharged, 2 blower two-stroke), power, consumption, air-fuel ratio.
func engineFlowCheck(a []float64) (float64, error) {
	if err := wants(a, 4); err != nil {
		return 0, err
	}
	e := plain(source.FourStroke, 4)
	switch a[0] {
	case 1:
		e.Aspiration = source.Turbocharged
	case 2:
		e = plain(source.TwoStroke, 6)
	}
	e.Rated.Power, e.FuelConsumption, e.AirFuelRatio = a[1], a[2], a[3]
	r, err := e.At(e.Rated)
	return r.EngineFlow, err
}

// backPressureCostCheck is the share of power lost to a back pressure in Pa at 6.9 bar mean effective pressure.
func backPressureCostCheck(a []float64) (float64, error) {
	if err := wants(a, 1); err != nil {
		return 0, err
	}
	e := plain(source.FourStroke, 4)
	e.Displacement = e.Rated.Power / (6.9e5 * e.CycleFrequency(e.Rated.Speed))
	c, err := e.BackPressureCost(e.Rated, a[0])
	return c.Power, err
}

// fourStroke runs the usual naturally aspirated cylinder.
func fourStroke(bore, stroke, speed, airFuel float64) (*cycle.Result, error) {
	return cycle.Run(cycle.Usual(cycle.NaturalFour, bore, stroke), cycle.Running{Speed: speed,
		IntakePressure: cycle.NaturalPressure, IntakeTemperature: cycle.NaturalTemperature,
		ExhaustPressure: 101325, Fuel: cycle.Diesel, AirFuelRatio: airFuel}, cycle.FineStep)
}

func cylinderCheck(f func(*cycle.Result) float64) checkFunc {
	return func(a []float64) (float64, error) {
		if err := wants(a, 4); err != nil {
			return 0, err
		}
		r, err := fourStroke(a[0], a[1], a[2], a[3])
		if err != nil {
			return 0, err
		}
		return f(r), nil
	}
}

// firingLine is the k-th harmonic of the firing frequency of four cylinders of 87 x 92 mm at 2600 rpm.
func firingLine(a []float64) (float64, error) {
	if err := wants(a, 1); err != nil {
		return 0, err
	}
	r, err := fourStroke(0.087, 0.092, 2600, 20)
	if err != nil {
		return 0, err
	}
	k := 4 * int(a[0])
	lines := r.Lines(k)
	return lines[k-1], nil
}
