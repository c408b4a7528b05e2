//go:build !js

package meter

import (
	"math"
	"math/cmplx"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// checkRate is the sampling rate at which filters are held against their limits, Hz.
const checkRate = 48000

// Checks are the published values of this package.
var Checks = published.Values{
	// octave of the nine, frequency over its middle: attenuation against that at the middle, dB
	"meter.Octave": published.Two(attenuation),
	// the same, least attenuation: what is lacking, dB
	"meter.OctaveLacks": published.Args(3, func(a []float64) (float64, error) { return math.Max(0, a[2]-attenuation(a[0], a[1])), nil }),
	// frequency over the middle of the octave at 1 kHz: what the spectrum's band takes out of a tone, dB
	"meter.Band": published.One(func(ratio float64) float64 { return -toneIn(1000*ratio, 1000, octaveEdge) }),
	// the same of a third octave
	"meter.Third": published.One(func(ratio float64) float64 { return -toneIn(1000*ratio, 1000, thirdEdge) }),
	// the same, least attenuation
	"meter.ThirdLacks": published.Two(func(ratio, least float64) float64 { return math.Max(0, least+toneIn(1000*ratio, 1000, thirdEdge)) }),
	// frequency: what A shows of a tone against its level, dB
	"meter.A": published.One(func(f float64) float64 { return toneSpectrum(f).Weighted(spectrum.AAt) }),
	"meter.C": published.One(func(f float64) float64 { return toneSpectrum(f).Weighted(spectrum.CAt) }),
}

func attenuation(band, ratio float64) float64 {
	f := spectrum.Exact[int(band)]
	x, err := newFilter(f, checkRate)
	if err != nil || f*ratio >= checkRate/2 {
		return math.NaN()
	}
	at := func(f float64) float64 { return -20 * math.Log10(cmplx.Abs(x.gain(2*math.Pi*f/checkRate))) }
	return at(f*ratio) - at(f)
}

// toneIn is the level that a band shows of a tone of 0 dB.
func toneIn(f, middle, edge float64) float64 { return toneSpectrum(f).band(middle, edge) }

// toneSpectrum is the spectrum of one block with a tone of 0 dB.
func toneSpectrum(f float64) *Spectrum {
	s := NewSpectrum(checkRate)
	x := make([]float64, checkRate)
	for i := range x {
		x[i] = math.Sqrt2 * math.Sin(2*math.Pi*f*float64(i)/checkRate)
	}
	s.Add(x)
	if err := s.Close(); err != nil {
		return &Spectrum{Rate: checkRate, Size: 1}
	}
	return s
}
