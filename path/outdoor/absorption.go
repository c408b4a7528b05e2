package outdoor

import (
	"fmt"
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// AbsorptionCited cites the absorption of air.
var AbsorptionCited = published.By("-alpha r", "ISO 9613-1:1993, eq. (3) to (5)", "read")

// Absorption is the pure-tone attenuation of air in dB/m at the exact octave centres; temperature in K,
// pressure in Pa, humidity relative, 0 to 1.
//
// Valid from 253 K to 323 K and below 200 kPa; humidity 0.1 to 1 (ISO 9613-1:1993, 7). Outside that
// it is an error. Multiply by the distance in m.
func Absorption(temperature, pressure, humidity float64) (b spectrum.Bands, err error) {
	if !(temperature >= 253 && temperature <= 323.2) {
		return b, fmt.Errorf("air absorption by ISO 9613-1 holds from -20 to 50 °C, not at %.1f °C", temperature-273.15)
	}
	if !(pressure > 0 && pressure < 200e3) {
		return b, fmt.Errorf("air absorption by ISO 9613-1 holds below 200 kPa, not at %.1f kPa", pressure/1e3)
	}
	if !(humidity >= 0.1 && humidity <= 1) {
		return b, fmt.Errorf("air absorption by ISO 9613-1 holds from 10 to 100 %% humidity, not at %.1f %%", humidity*100)
	}
	for i, f := range spectrum.Exact {
		b[i] = attenuation(f, temperature, pressure, humidity)
	}
	return b, nil
}

// attenuation is ISO 9613-1:1993 eq. (5) with the relaxation frequencies of eq. (3) and (4).
func attenuation(f, t, pa, humidity float64) float64 {
	const pr, t0, t01 = 101325.0, 293.15, 273.16
	saturation := math.Pow(10, -6.8346*math.Pow(t01/t, 1.261)+4.6151)
	h := humidity * 100 * saturation * pr / pa
	p, tr := pa/pr, t/t0
	fro := p * (24 + 4.04e4*h*(0.02+h)/(0.391+h))
	frn := p / math.Sqrt(tr) * (9 + 280*h*math.Exp(-4.170*(math.Pow(tr, -1.0/3)-1)))
	classical := 1.84e-11 / p * math.Sqrt(tr)
	oxygen := 0.01275 * math.Exp(-2239.1/t) / (fro + f*f/fro)
	nitrogen := 0.1068 * math.Exp(-3352/t) / (frn + f*f/frn)
	return 8.686 * f * f * (classical + math.Pow(tr, -2.5)*(oxygen+nitrogen))
}
