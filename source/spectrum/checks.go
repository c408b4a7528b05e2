package spectrum

import (
	"math"

	"hushwake/source/published"
)

// Checks are the published values of this package. Bands are nine levels from 31.5 Hz.
var Checks = published.Values{
	"spectrum.AAt":   published.One(AAt),
	"spectrum.A":     published.Args(1, func(a []float64) (float64, error) { return A[int(a[0])], nil }),
	"spectrum.C":     published.Args(1, func(a []float64) (float64, error) { return C[int(a[0])], nil }),
	"spectrum.DBA":   ofBands(Bands.DBA),
	"spectrum.Total": ofBands(Bands.Total),
	"spectrum.PSIL":  ofBands(PSIL),
	"spectrum.NR":    ofBands(func(b Bands) float64 { r, _ := NR(b); return r }),
	// rating, band
	"spectrum.NRCurve": published.Args(2, func(a []float64) (float64, error) { return NRCurve(a[0])[int(a[1])], nil }),
	// the speech interference level at which a voice just carries r m
	"spectrum.TalkLevel":  published.Two(func(r, v float64) float64 { return 20 * math.Log10(TalkDistance(0, Voice(v))/r) }),
	"spectrum.HoursTo":    published.Two(HoursTo),
	"spectrum.Exposure8h": published.Two(Exposure8h),
}

func ofBands(f func(Bands) float64) published.Value {
	return published.Args(N, func(a []float64) (float64, error) { return f(Bands(a)), nil })
}
