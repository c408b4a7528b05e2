//go:build !js

package cycle

import "hushwake/source/published"

// Checks are the published values of this package: bore and stroke m, speed rpm, air-fuel ratio.
var Checks = published.Values{
	"cycle.OpeningPressure":    cylinder(func(r *Result) float64 { return r.OpeningPressure }),
	"cycle.OpeningTemperature": cylinder(func(r *Result) float64 { return r.OpeningTemperature }),
	"cycle.MassResidual":       cylinder(func(r *Result) float64 { return r.MassResidual }),
	"cycle.EnergyResidual":     cylinder(func(r *Result) float64 { return r.EnergyResidual }),
	// the harmonic of the firing frequency of four cylinders of 87 x 92 mm at 2600 rpm
	"cycle.FiringLine": published.Args(1, func(a []float64) (float64, error) {
		r, err := fourStroke(0.087, 0.092, 2600, 20)
		if err != nil {
			return 0, err
		}
		k := 4 * int(a[0])
		return r.Lines(k)[k-1], nil
	}),
}

// fourStroke runs the usual naturally aspirated cylinder.
func fourStroke(bore, stroke, speed, airFuel float64) (*Result, error) {
	return Run(Usual(NaturalFour, bore, stroke), Running{Speed: speed, IntakePressure: NaturalPressure,
		IntakeTemperature: NaturalTemperature, ExhaustPressure: 101325, Fuel: diesel, AirFuelRatio: airFuel}, FineStep)
}

func cylinder(pick func(*Result) float64) published.Value {
	return published.Args(4, func(a []float64) (float64, error) {
		r, err := fourStroke(a[0], a[1], a[2], a[3])
		if err != nil {
			return 0, err
		}
		return pick(r), nil
	})
}
