package report

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path/report/form"
	"hushwake/source/spectrum"
)

// At 90 dB(A) and over, however the octaves lie, no talk is called easy; the octaves up to 1 kHz, where engines rule,
// let no normal voice carry a metre. Where it is quiet talk is easy.
func TestNoEasyTalkAt90(t *testing.T) {
	for b := range spectrum.N {
		for _, rest := range []float64{-40, 0, 20} {
			noise := spectrum.Fill(rest)
			noise[b] = 90 - spectrum.A[b]
			text := talk(noise, noise.DBA(), form.Units{})
			assert.NotContains(t, text, "easy")
			if b < 6 {
				assert.Less(t, spectrum.TalkDistance(noise, spectrum.NormalVoice), 1.0, "%g Hz", spectrum.Nominal[b])
				assert.NotContains(t, text, "clear")
			}
		}
	}
	assert.Contains(t, talk(spectrum.Fill(20), 27, form.Units{}), "easy")
}
