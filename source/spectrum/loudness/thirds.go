package loudness

import (
	"math"

	"hushwake/source/spectrum"
)

// sharpness is the centre of a third over its width, 1/(10^0.05 - 10^-0.05).
var sharpness = 1 / (math.Pow(10, 0.05) - math.Pow(10, -0.05))

// passed is the share of the energy at f that a Butterworth band-pass of three pole pairs for the third about centre lets through:
// the method counts on such filters, its loudness of tones holds with what they leak into their neighbours.
func passed(f, centre float64) float64 {
	x := (f/centre - centre/f) * sharpness
	return 1 / (1 + x*x*x*x*x*x)
}

// leaks are the shares of noise in the thirds from 25 Hz to 10 kHz that the band-pass of each third lets through.
var leaks = func() (x [len(thirds{})][3 * spectrum.N]float64) {
	const points = 20
	for i, centre := range centres {
		for k := range x[i] {
			low := centres[k] * math.Pow(10, -0.05)
			width := centres[k]*math.Pow(10, 0.05) - low
			for p := range points {
				x[i][k] += passed(low+width*(float64(p)+0.5)/points, centre) / points
			}
		}
	}
	return x
}()

// thirdsOf are the third-octave levels of lines in broadband noise given by octaves, as filters of three pole pairs read them.
// Each octave is shared over its thirds by the slope to its neighbours, its energy kept.
func thirdsOf(lines []spectrum.Line, broad spectrum.Bands) (t thirds) {
	noise, energies := share(broad), make([]float64, len(lines))
	for k, l := range lines {
		energies[k] = spectrum.Power(l.Level)
	}
	for i, centre := range centres {
		energy := 0.0
		for k, e := range noise {
			energy += e * leaks[i][k]
		}
		for k, l := range lines {
			energy += energies[k] * passed(l.Frequency, centre)
		}
		t[i] = spectrum.Level(energy)
	}
	return t
}

// share is the energy of the thirds of each octave.
func share(broad spectrum.Bands) (energy [3 * spectrum.N]float64) {
	for b, l := range broad {
		below, above := broad[max(b-1, 0)], broad[min(b+1, spectrum.N-1)]
		part := [3]float64{spectrum.Power((below - l) / 3), 1, spectrum.Power((above - l) / 3)}
		for k, p := range part {
			energy[3*b+k] = spectrum.Power(l) * p / (part[0] + part[1] + part[2])
		}
	}
	return energy
}

// Heard is the loudness of lines in broadband noise, sone.
func Heard(lines []spectrum.Line, broad spectrum.Bands) (float64, error) {
	return sonesOf(thirdsOf(lines, broad))
}
