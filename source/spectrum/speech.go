package spectrum

import "math"

// PSIL is the preferred speech interference level, the mean of the octave levels at 500, 1000 and
// 2000 Hz, dB. Source: trade handbooks, read.
func PSIL(b Bands) float64 { return (b[4] + b[5] + b[6]) / 3 }

// Voice is how hard one speaks.
type Voice int

// Voices.
const (
	NormalVoice Voice = iota
	RaisedVoice
	VeryLoudVoice
	Shout
)

// SpeechSource is where the talking distances come from.
const SpeechSource = "table of greatest PSIL by distance and voice (engineering handbooks, read), fitted by 59.1 + 6 v - 20 lg(r/m) within 0.4 dB"

// TalkDistance is the greatest distance in m at which a voice is just understood in a speech
// interference level in dB: TalkLevel solved for r. Outside 0.3 to 7.3 m (see TalkValid) it is an
// extrapolation.
func TalkDistance(psil float64, v Voice) float64 {
	return math.Pow(10, (59.1+6*float64(v)-psil)/20)
}
