package gas

import (
	"math"
)

// Critical point of water (IAPWS-95).
const (
	criticalK  = 647.096
	criticalPa = 22.064e6
)

// saturationPressure is the vapour pressure of pure water in Pa by the equation of Wagner and Pruss
// (J. Phys. Chem. Ref. Data 22, 1993; IAPWS SR1-86(1992)), valid 273.16 K to 647.096 K. Between 240 K and the
// triple point it goes on as over supercooled water; outside it gives 0 below and the critical pressure above.
//
//	ln(p/pc) = Tc/T (a1 y + a2 y^1.5 + a3 y^3 + a4 y^3.5 + a5 y^4 + a6 y^7.5),  y = 1 - T/Tc
func saturationPressure(temperatureK float64) float64 {
	switch {
	case !(temperatureK >= 200):
		return 0
	case temperatureK >= criticalK:
		return criticalPa
	}
	y := 1 - temperatureK/criticalK
	r := math.Sqrt(y)
	y3 := y * y * y
	sum := -7.85951783*y + 1.84408259*y*r - 11.7866497*y3 + 22.6807411*y3*r - 15.9618719*y3*y + 1.80122502*y3*y3*y*r
	return criticalPa * math.Exp(criticalK/temperatureK*sum)
}

// bisect finds the zero of a falling function between low and high to the last digits.
func bisect(f func(float64) float64, low, high float64) float64 {
	for range 60 {
		mid := (low + high) / 2
		if f(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}
