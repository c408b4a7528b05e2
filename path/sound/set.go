package sound

import (
	"math"

	"hushwake/source/spectrum"
)

// headroom is how far the loudest sample of a set stays under full scale, dB.
const headroom = 1.0

// Full is the level of full scale for sounds that go by one gain, dB re 20 µPa: the loudest peak lies Headroom under it or a
// little lower, for it is rounded up to 0.1 dB.
func Full(sounds ...[]float64) float64 {
	peak := 0.0
	for _, x := range sounds {
		for _, v := range x {
			peak = math.Max(peak, math.Abs(v))
		}
	}
	if peak == 0 {
		return 0
	}
	return math.Ceil((20*math.Log10(peak)+headroom)*10) / 10
}

// Scaled are samples as shares of full scale.
func Scaled(x []float64, full float64) []float64 {
	out, gain := make([]float64, len(x)), math.Pow(10, -full/20)
	for i, v := range x {
		out[i] = v * gain
	}
	return out
}

// Level of a voice across a table, dB(A): a normal voice at 1 m (ISO 9921:2003, from memory).
const Voice = 60.0

// VoiceNoise is steady noise with the long-term spectrum of normal speech at Voice dB(A): not a voice, but as loud as one at 1 m.
func VoiceNoise() Sound {
	b := spectrum.SpeechBands(spectrum.NormalVoice)
	return Sound{Broad: b.Shift(Voice - b.DBA())}
}

// Tone is a pure tone, put on whole cycles of its loop. The frequency is in Hz, the level in dB.
func Tone(frequency, level float64) Sound {
	return Sound{Broad: spectrum.Fill(spectrum.Silent), Lines: []Line{{Cycle: frequency, Multiple: 1, Level: level}}}
}
