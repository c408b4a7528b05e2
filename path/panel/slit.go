package panel

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// SlitSource is where the transmission of a slit comes from.
const SlitSource = "Gomperts and Kihlman, Acustica 18 (1967), diffuse incidence, slit in the middle of a wall; from memory"

// Slit is the gap round a door or hatch: width and depth (thickness of the leaf) and length in m. It may let
// through more than falls on its area near the resonances of its depth, so its loss can be
// negative; wide slits (wave number times width above 1) count as open. At most 10 dB is gained.
//
//	t = m K cos^2(K e)/(2 {sin^2(K L + 2 K e)/cos^2(K e) + K^2/2 [1 + cos(K L + 2 K e) cos(K L)]})
//	K = 2 pi f w/c, L = d/w, e = (ln(8/K) - 0.57722)/pi, m = 8
//
// Each octave is the energy mean of nine frequencies. Source: SlitSource.
func Slit(width, depth, length float64) (Part, error) {
	if !(width > 0) || !(depth > 0) || !(length > 0) {
		return Part{}, fmt.Errorf("slit of %g by %g m, %g m deep: all three must be above zero", width, length, depth)
	}
	p := Part{Name: "slit", Area: width * length}
	for i, f := range spectrum.Exact {
		t := 0.0
		for k := range 9 {
			t += slit(f*math.Exp2((float64(k)-4)/9), width, depth) / 9
		}
		p.Loss[i] = -10 * math.Log10(math.Min(10, t))
	}
	return p, nil
}

func slit(f, w, d float64) float64 {
	k := 2 * math.Pi * f * w / 343
	if k > 1 {
		return 1
	}
	l, e := d/w, (math.Log(8/k)-0.57722)/math.Pi
	c := math.Cos(k * e)
	phase := k*l + 2*k*e
	s := math.Sin(phase)
	return 8 * k * c * c / (2 * (s*s/(c*c) + k*k/2*(1+math.Cos(phase)*math.Cos(k*l))))
}
