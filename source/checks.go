//go:build !js

package source

import (
	"fmt"
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Checks are the published values of this package. Powers in W, speeds in rpm; a flag is 1 for a turbocharger; a stroke
// is 2 or 4.
var Checks = published.Values{
	"source.casingBase":     published.Two(casingBase),
	"source.alternatorBase": published.Two(alternatorBase),
	"source.inletBase":      published.One(inletBase),
	"source.exhaustBase":    published.Two(func(p, turbo float64) float64 { return exhaustBase(p, turbo == 1) }),
	// row of the handbook, band
	"source.Row": published.Args(2, func(a []float64) (float64, error) {
		b, _, err := octaveTerms(handbookRows[int(a[0])])
		return b[int(a[1])], err
	}),
	// a row summed up anew with the A-weights
	"source.RowA": published.Args(1, func(a []float64) (float64, error) {
		b, _, err := octaveTerms(handbookRows[int(a[0])])
		return spectrum.Bands{}.Minus(b).DBA(), err
	}),
	"source.intakePulse":   published.One(intakePulse),
	"source.pulsatingFlow": published.Two(func(q, f float64) float64 { return spectrum.Level(pulsatingFlow(q, f) / referencePower) }),
	"source.LoadChange":    func([]float64) (float64, error) { return loadChange() },
	"source.TurboLoss":     published.One(func(p float64) float64 { return exhaustBase(p, false) - exhaustBase(p, true) }),
	// stroke, cylinders, speed
	"source.FiringFrequency": published.Args(3, func(a []float64) (float64, error) {
		stroke := map[float64]Stroke{2: TwoStroke, 4: FourStroke}[a[0]]
		return float64(plain(stroke, int(a[1])).PipeFiring(a[2])), nil
	}),
	// row of the order table, order
	"source.OrderStrength": published.Args(2, func(a []float64) (float64, error) {
		e, err := orderEngines(int(a[0]))
		return pulseTrain(e.Pulses(), a[1], 0), err
	}),
	// shares of rated: speed, exponent; power and torque in per cent
	"source.propellerPower":  published.Two(func(x, n float64) float64 { return 100 * propellerPower(x, n) }),
	"source.PropellerTorque": published.Two(func(x, n float64) float64 { return 100 * propellerPower(x, n) / x }),
	"source.Flow":            published.Args(4, flow),
	// Pa; the share of power lost at 6.9 bar mean effective pressure
	"source.PowerCost": published.Args(1, func(a []float64) (float64, error) {
		e := plain(FourStroke, 4)
		e.Displacement = e.Rated.Power / (6.9e5 * e.CycleFrequency(e.Rated.Speed))
		c, err := e.BackPressureCost(e.Rated, a[0])
		return c.Power, err
	}),
}

var handbookRows = []string{"exhaust", "casing under 600 rpm", "casing 600 to 1500 rpm",
	"casing 600 to 1500 rpm with Roots blower", "casing over 1500 rpm", "turbocharger inlet", "generator"}

func plain(stroke Stroke, cylinders int) Engine {
	none := 0.0
	e := Engine{Stroke: stroke, Cylinders: cylinders, Scatter: &none, Rated: Duty{Power: 100e3, Speed: 2400}}
	if stroke == TwoStroke {
		e.Aspiration = Blower
	}
	return e
}

// loadChange is the fall of exhaust level from full load to none at one speed, dB(A).
func loadChange() (float64, error) {
	e := plain(FourStroke, 6)
	full, err := e.At(e.Rated)
	if err != nil {
		return 0, err
	}
	idle, err := e.At(Duty{Power: 0, Speed: e.Rated.Speed})
	return full.Exhaust.Bands.DBA() - idle.Exhaust.Bands.DBA(), err
}

// orderEngines are the rows of the order table.
func orderEngines(kind int) (Engine, error) {
	inline := map[int]int{1: 4, 2: 6, 3: 3, 4: 5, 5: 2, 6: 2, 10: 6}
	vee := map[int]int{7: 8, 8: 6, 9: 6, 11: 8}
	e := plain(FourStroke, inline[kind]+vee[kind])
	if vee[kind] > 0 {
		e.Arrangement = Vee
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

// flow takes kind (0 natural, 1 turbocharged, 2 blower two-stroke), power, consumption, air-fuel ratio.
func flow(a []float64) (float64, error) {
	e := plain(FourStroke, 4)
	switch a[0] {
	case 1:
		e.Aspiration = Turbocharged
	case 2:
		e = plain(TwoStroke, 6)
	}
	e.Rated.Power, e.FuelConsumption, e.AirFuelRatio = a[1], a[2], a[3]
	r, err := e.At(e.Rated)
	return float64(r.EngineFlow), err
}
