// Package audibility judges whether a tone stands out of the noise about it, in the form of ISO/PAS 20065:2016: from a
// prediction, whose lines and broadband octaves are known, and from a narrow-band spectrum, in which they must be found.
// Where nothing is heard of the noise the threshold of hearing takes its place. Source: ISO/PAS 20065:2016 (read in a
// transcription); threshold ISO 389-7:2005 (from memory).
package audibility

import "math"

// Range of the form: below Lowest the standard does not reach (from memory), above Highest nothing is looked for. Hz.
const (
	Lowest  = 50.0
	Highest = 10000.0
)

// Bandwidth is the width of the critical band about a tone of frequency f, Hz:
//
//	dfc = 25 + 75 (1 + 1.4 (f/1000)^2)^0.69
//
// Source: ISO/PAS 20065:2016, read in a transcription.
func Bandwidth(f float64) float64 { return 25 + 75*math.Pow(1+1.4*f*f/1e6, 0.69) }

// edges bound the critical band, Hz: f1 f2 = f^2, f2 - f1 = dfc.
func edges(f float64) (low, high float64) {
	w := Bandwidth(f)
	low = (math.Sqrt(w*w+4*f*f) - w) / 2
	return low, low + w
}

// Index is the masking index: the level over that of the noise in the critical band at which a tone is just heard, dB.
//
//	av = -2 - lg(1 + (f/502)^2.5)
func Index(f float64) float64 { return -2 - math.Log10(1+math.Pow(f/502, 2.5)) }

// excess is the audibility of a tone of a level in noise of a level in its critical band, dB: dL = LT - LG - av. It is
// the tonal audibility of ISO 1996-2:2007 annex C too. f is in Hz.
func excess(f, tone, noise float64) float64 { return tone - noise - Index(f) }

// apart tells whether two tones of one critical band are heard as two: below 1 kHz, where they lie further apart than
//
//	fD = 21 * 10^(1.2 |lg(f/212)|^1.8)
//
// of the stronger tone's frequency f. Both are in Hz.
func apart(f, other float64) bool {
	return f < 1000 && math.Abs(f-other) > 21*math.Pow(10, 1.2*math.Pow(math.Abs(math.Log10(f/212)), 1.8))
}

// NeverBelow is what a spectrum without a tone counts with among several, dB (from memory).
const NeverBelow = -10.0

// Decisive is the audibility of several spectra of one sound: the mean of their energies, dB. Without spectra it is NeverBelow.
func Decisive(each []float64) float64 {
	sum := 0.0
	for _, d := range each {
		sum += math.Pow(10, math.Max(d, NeverBelow)/10)
	}
	if sum == 0 {
		return NeverBelow
	}
	return 10 * math.Log10(sum/float64(len(each)))
}

// Tone is what stands out most in a spectrum.
type Tone struct {
	Frequency  float64 // Hz, of its strongest part
	Level      float64 // dB, of all that is heard as one tone
	Noise      float64 // dB, what masks it in its critical band
	Audibility float64 // dB over the level at which it is just heard; 0 and less: nothing stands out
}

// drone is the audibility from which a tone rules a sound, dB (judgement).
const drone = 4.0

// Word is how a tone is called: "", "audible" or "drone".
func (t Tone) Word() string {
	switch {
	case !(t.Audibility > 0):
		return ""
	case t.Audibility <= drone:
		return "audible"
	}
	return "drone"
}
