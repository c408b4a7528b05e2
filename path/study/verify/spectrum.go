package verify

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// spectrumChecks are the published values of package spectrum. Bands are nine levels from 31.5 Hz.
var spectrumChecks = map[string]checkFunc{
	"spectrum.AAt":     one(spectrum.AAt),
	"spectrum.A":       bandOfTable(spectrum.A),
	"spectrum.C":       bandOfTable(spectrum.C),
	"spectrum.DBA":     ofBands(spectrum.Bands.DBA),
	"spectrum.Total":   ofBands(spectrum.Bands.Total),
	"spectrum.PSIL":    ofBands(spectrum.PSIL),
	"spectrum.NR":      ofBands(func(b spectrum.Bands) float64 { r, _ := spectrum.NR(b); return r }),
	"spectrum.NRCurve": curveCheck(func(r float64) (spectrum.Bands, error) { return spectrum.NRCurve(r), nil }),
	// the speech interference level at which a voice just carries r m
	"spectrum.TalkLevel": two(func(r, v float64) float64 {
		return 20 * math.Log10(spectrum.TalkDistance(0, spectrum.Voice(v))/r)
	}),
	"spectrum.HoursTo":    two(spectrum.HoursTo),
	"spectrum.Exposure8h": two(spectrum.Exposure8h),
}

var _ = register(spectrumChecks)

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
