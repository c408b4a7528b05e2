//go:build !js

package loudness

import (
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Checks are the published values of this package.
var Checks = published.Values{
	"loudness.sonesOf": published.Args(len(thirds{}), func(a []float64) (float64, error) { return sonesOf(thirds(a)) }),
	// frequency and level of a tone
	"loudness.OfTone": published.Args(2, func(a []float64) (float64, error) {
		return Heard([]spectrum.Line{{Frequency: a[0], Level: a[1]}}, spectrum.Fill(spectrum.Silent))
	}),
	"loudness.Phon": published.One(Phon),
}
