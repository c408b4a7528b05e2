package readings

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/study/draws"
)

func observePressure(r path.Reading, l *draws.Layout) ([]observation, string, error) {
	p, err := exhaustOf(r, l)
	if err != nil {
		return nil, "", err
	}
	if *r.BackPress <= 0 || math.IsNaN(*r.BackPress) || math.IsInf(*r.BackPress, 0) {
		return nil, "", fmt.Errorf("reading %d: a back pressure must be over 0", r.Index)
	}
	if p.Running <= 0 {
		return nil, "no back pressure is predicted for it", nil
	}
	sd := ManometerSD
	if r.PlusMinus > 0 {
		sd = r.PlusMinus / *r.BackPress
	}
	return []observation{inLogarithms(p, r, "Pa", *r.BackPress, p.Running, sd, "manometer", p.SD)}, "", nil
}

// observeTemperature compares the gas temperature with the temperature terms of the back pressure:
// at a given mass flow the loss goes with rho v^2, that is with T.
func observeTemperature(r path.Reading, l *draws.Layout) ([]observation, string, error) {
	p, err := exhaustOf(r, l)
	if err != nil {
		return nil, "", err
	}
	if *r.Temp <= 0 || math.IsNaN(*r.Temp) || math.IsInf(*r.Temp, 0) {
		return nil, "", fmt.Errorf("reading %d: a temperature must be over absolute zero", r.Index)
	}
	if p.OutletTemperature <= 0 || len(p.TemperatureTerms) == 0 {
		return nil, "no term of the model rests on this temperature", nil
	}
	only := make([]float64, len(p.SD))
	for _, i := range p.TemperatureTerms {
		only[i] = p.SD[i]
	}
	sd := thermometerSD
	if r.PlusMinus > 0 {
		sd = r.PlusMinus
	}
	return []observation{inLogarithms(p, r, "K", *r.Temp, p.OutletTemperature, sd / *r.Temp, "thermometer", only)}, "", nil
}

// inLogarithms compares logarithms, in which the model is linear.
func inLogarithms(p *draws.Exhaust, r path.Reading, unit string, value, median, sd float64, kind string, s []float64) observation {
	bias, repeat := SplitError(sd)
	return observation{unit: unit, value: math.Log(value), shown: value, bias: bias, repeat: repeat,
		instrument: instrument(r, kind), restore: math.Exp,
		expected: expected{constant: math.Log(median), keys: p.Keys, sd: s}}
}
