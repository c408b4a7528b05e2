//go:build !js

package spectrum

import (
	"fmt"
	"math"

	"hushwake/source/published"
)

// Checks are the published values of this package. Bands are nine levels from 31.5 Hz.
var Checks = published.Values{
	"spectrum.AAt":   published.One(AAt),
	"spectrum.CAt":   published.One(CAt),
	"spectrum.A":     published.Args(1, func(a []float64) (float64, error) { return A[int(a[0])], nil }),
	"spectrum.C":     published.Args(1, func(a []float64) (float64, error) { return C[int(a[0])], nil }),
	"spectrum.DBA":   ofBands(Bands.DBA),
	"spectrum.Total": ofBands(Bands.Total),
	"spectrum.PSIL":  ofBands(PSIL),
	"spectrum.NR":    ofBands(func(b Bands) float64 { r, _ := NR(b); return r }),
	// rating, band
	"spectrum.NRCurve":       published.Args(2, func(a []float64) (float64, error) { return NRCurve(a[0])[int(a[1])], nil }),
	"spectrum.TalkLevel":     published.Two(talkLevel),
	"spectrum.audibleShare":  audible,
	"spectrum.HoursTo":       published.Two(HoursTo),
	"spectrum.Exposure8h":    published.Two(Exposure8h),
	"spectrum.exposureLevel": exposureOf,
}

func ofBands(f func(Bands) float64) published.Value {
	return published.Args(N, func(a []float64) (float64, error) { return f(Bands(a)), nil })
}

// talkLevel is the speech interference level of noise falling 5 dB an octave in which a voice is just understood
// at r m, by an index of 0.3.
func talkLevel(r, v float64) float64 {
	low, high := 0.0, 120.0
	for high-low > 0.001 {
		level := (low + high) / 2
		var noise Bands
		for b := range noise {
			noise[b] = level - 5*float64(b-5)
		}
		if Intelligibility(noise, Voice(v), r) > 0.3 {
			low = level
		} else {
			high = level
		}
	}
	return low
}

// exposureOf takes tasks of a day, one after the other: number of samples, hours, and the samples, dB(A).
func exposureOf(a []float64) (float64, error) {
	var day []period
	for len(a) > 0 {
		n := int(a[0])
		if n < 1 || len(a) < n+2 {
			return 0, fmt.Errorf("the row ends within a task of %d samples", n)
		}
		day = append(day, period{Sum(a[2:n+2]...) - 10*math.Log10(a[0]), a[1]})
		a = a[n+2:]
	}
	return exposureLevel(day...), nil
}

// audible sums bands of importance, speech, disturbance and normal speech.
func audible(a []float64) (index float64, err error) {
	if len(a)%4 != 0 {
		return 0, fmt.Errorf("the row has %d arguments, the function takes fours", len(a))
	}
	for ; len(a) > 0; a = a[4:] {
		index += a[0] * audibleShare(a[1], a[2], a[3])
	}
	return index, nil
}
