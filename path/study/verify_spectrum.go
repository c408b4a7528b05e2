package study

import (
	"fmt"

	"hushwake/source/spectrum"
)

// spectrumChecks are the published values of package spectrum. Bands are nine levels from 31.5 Hz.
var spectrumChecks = map[string]checkFunc{
	"spectrum.AAt":        one(spectrum.AAt),
	"spectrum.A":          bandOfTable(spectrum.A),
	"spectrum.C":          bandOfTable(spectrum.C),
	"spectrum.DBA":        ofBands(spectrum.Bands.DBA),
	"spectrum.Total":      ofBands(spectrum.Bands.Total),
	"spectrum.PSIL":       ofBands(spectrum.PSIL),
	"spectrum.NR":         ofBands(func(b spectrum.Bands) float64 { r, _ := spectrum.NR(b); return r }),
	"spectrum.NRCurve":    curveCheck(func(r float64) (spectrum.Bands, error) { return spectrum.NRCurve(r), nil }),
	"spectrum.TalkLevel":  two(talkLevel),
	"spectrum.Audible":    audible,
	"spectrum.HoursTo":    two(spectrum.HoursTo),
	"spectrum.Exposure8h": two(spectrum.Exposure8h),
}

var _ = register(spectrumChecks)

// talkLevel is the speech interference level of noise falling 5 dB an octave in which a voice is just understood
// at r m, by an index of 0.3.
func talkLevel(r, v float64) float64 {
	low, high := 0.0, 120.0
	for high-low > 0.001 {
		level := (low + high) / 2
		var noise spectrum.Bands
		for b := range noise {
			noise[b] = level - 5*float64(b-5)
		}
		if spectrum.Intelligibility(noise, spectrum.Voice(v), r) > 0.3 {
			low = level
		} else {
			high = level
		}
	}
	return low
}

// audible sums bands of importance, speech, disturbance and normal speech.
func audible(a []float64) (index float64, err error) {
	if len(a)%4 != 0 {
		return 0, wants(a, 4)
	}
	for ; len(a) > 0; a = a[4:] {
		index += a[0] * spectrum.Audible(a[1], a[2], a[3])
	}
	return index, nil
}

func wants(args []float64, n int) error {
	if len(args) != n {
		return fmt.Errorf("%d arguments, wanted %d", len(args), n)
	}
	return nil
}

func one(f func(float64) float64) checkFunc {
	return func(a []float64) (float64, error) {
		if err := wants(a, 1); err != nil {
			return 0, err
		}
		return f(a[0]), nil
	}
}

func two(f func(a, b float64) float64) checkFunc {
	return func(a []float64) (float64, error) {
		if err := wants(a, 2); err != nil {
			return 0, err
		}
		return f(a[0], a[1]), nil
	}
}

func ofBands(f func(spectrum.Bands) float64) checkFunc {
	return func(a []float64) (float64, error) {
		if err := wants(a, spectrum.N); err != nil {
			return 0, err
		}
		return f(spectrum.Bands(a)), nil
	}
}

func bandIndex(x float64) (int, error) {
	if i := int(x); i >= 0 && i < spectrum.N {
		return i, nil
	}
	return 0, fmt.Errorf("no band %g", x)
}

func bandOfTable(b spectrum.Bands) checkFunc {
	return func(a []float64) (float64, error) {
		if err := wants(a, 1); err != nil {
			return 0, err
		}
		i, err := bandIndex(a[0])
		return b[i], err
	}
}

// curveCheck takes a rating and a band index.
func curveCheck(f func(float64) (spectrum.Bands, error)) checkFunc {
	return func(a []float64) (float64, error) {
		if err := wants(a, 2); err != nil {
			return 0, err
		}
		i, err := bandIndex(a[1])
		if err != nil {
			return 0, err
		}
		b, err := f(a[0])
		return b[i], err
	}
}
