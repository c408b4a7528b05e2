package gas

import "fmt"

// DewPoint is the temperature (K) at which the vapour of the gas begins to condense, at a pressure in Pa.
func (g Gas) DewPoint(pressurePa float64) (float64, error) {
	x := g.Fractions()
	return SaturationTemperature(x[water] * pressurePa)
}

// SaturationTemperature is the temperature (K) at which water has a vapour pressure (Pa), for 20 Pa to 22 MPa.
func SaturationTemperature(pressurePa float64) (float64, error) {
	if !(pressurePa >= 20 && pressurePa < criticalPa) {
		return 0, fmt.Errorf("vapour pressure %.3g Pa lies outside the saturation equation (20 Pa to 22 MPa)", pressurePa)
	}
	return bisect(func(t float64) float64 { return pressurePa - saturationPressure(t) }, 200, criticalK), nil
}
