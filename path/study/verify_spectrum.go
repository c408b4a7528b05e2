package study

import (
	"fmt"

	"hushwake/source/spectrum"
)

// spectrumChecks are the published values of package spectrum. Bands are nine levels from 31.5 Hz.
var spectrumChecks = map[string]checkFunc{
	"spectrum.AAt":      one(spectrum.AAt),
	"spectrum.CAt":      one(spectrum.CAt),
	"spectrum.A":        bandOfTable(spectrum.A),
	"spectrum.C":        bandOfTable(spectrum.C),
	"spectrum.DBA":      ofBands(spectrum.Bands.DBA),
	"spectrum.Total":    ofBands(spectrum.Bands.Total),
	"spectrum.PSIL":     ofBands(spectrum.PSIL),
	"spectrum.SIL4":     ofBands(spectrum.SIL4),
	"spectrum.NR":       ofBands(func(b spectrum.Bands) float64 { r, _ := spectrum.NR(b); return r }),
	"spectrum.NRCurve":  curveCheck(func(r float64) (spectrum.Bands, error) { return spectrum.NRCurve(r), nil }),
	"spectrum.NCCurve":  curveCheck(spectrum.NCCurve),
	"spectrum.NC":       ncCheck,
	"spectrum.Leq":      leqCheck,
	"spectrum.OSHADose": doseCheck,
	"spectrum.TalkLevel": two(func(r, v float64) float64 {
		return spectrum.TalkLevel(r, spectrum.Voice(v))
	}),
	"spectrum.OSHAHours":   one(spectrum.OSHAHours),
	"spectrum.NIOSHHours":  one(spectrum.NIOSHHours),
	"spectrum.OSHAAverage": one(spectrum.OSHAAverage),
	"spectrum.HoursTo":     two(spectrum.HoursTo),
	"spectrum.Exposure8h":  two(spectrum.Exposure8h),
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

func ncCheck(a []float64) (float64, error) {
	if err := wants(a, spectrum.N); err != nil {
		return 0, err
	}
	r, _, _, err := spectrum.NC(spectrum.Bands(a))
	return r, err
}

// periodsOf reads pairs of level and time.
func periodsOf(a []float64) (p []spectrum.Period, err error) {
	if len(a) == 0 || len(a)%2 != 0 {
		return nil, fmt.Errorf("%d arguments, wanted pairs of level and hours", len(a))
	}
	for i := 0; i < len(a); i += 2 {
		p = append(p, spectrum.Period{Level: a[i], Hours: a[i+1]})
	}
	return p, nil
}

func leqCheck(a []float64) (float64, error) {
	p, err := periodsOf(a)
	if err != nil {
		return 0, err
	}
	return spectrum.Leq(p...)
}

func doseCheck(a []float64) (float64, error) {
	p, err := periodsOf(a)
	return spectrum.OSHADose(p...), err
}
