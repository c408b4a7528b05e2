package silencer

import (
	"fmt"
	"math"
)

const (
	hoseModulus = 30e6  // Pa, hoop stiffness of fabric and wire reinforced rubber over its wall; common practice, no source
	hoseDamping = 0.2   // loss factor of rubber, from memory
	hoseMost    = 40.0  // dB, what a hose is credited with: clips, bends and its own shaking give off the rest
	hoseLeast   = 6.0   // dB
	airImpede   = 413.0 // Pa s/m, of air
)

// hoseWall is how much less the whole hose gives off than goes through it, dB: a thin elastic tube,
//
//	u = p/|E h (1 + j eta)/(a^2 jw) + jw m|,  q = 2 pi a u
//	W = min(L rho w q^2/4, rho w^2 (q L)^2/(4 pi c), rho c 2 pi a L u^2),  D = 10 lg(p^2 S/(rho c)/W)
//
// with the three forms a thin line source, a small source and a wide wall (derived); kept between 6 and
// 40 dB. Narrow hoses hold back much more than wide ones. Its stiffness is known within a factor of three: +-8 dB.
func hoseWall(bore, thick, length, density float64) func(f float64) (float64, error) {
	return func(f float64) (float64, error) {
		if !(bore > 0 && thick > 0 && length > 0 && f > 0) {
			return 0, fmt.Errorf("hose wall: bore %g m, wall %g m, length %g m and frequency %g Hz must be above 0", bore, thick, length, f)
		}
		const rho, c = 1.204, 343.0
		w, a := 2*math.Pi*f, bore/2
		stiff := hoseModulus * thick / (a * a * w)
		u := 1 / math.Hypot(stiff*hoseDamping, w*density*thick-stiff) // for 1 Pa
		q := 2 * math.Pi * a * u
		out := math.Min(length*rho*w*q*q/4, rho*w*w*q*q*length*length/(4*math.Pi*c))
		out = math.Min(out, rho*c*2*math.Pi*a*length*u*u)
		return math.Min(hoseMost, math.Max(hoseLeast, 10*math.Log10(circle(bore)/airImpede/out))), nil
	}
}
