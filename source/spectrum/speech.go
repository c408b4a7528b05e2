package spectrum

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// PSIL is the preferred speech interference level, the mean of the octave levels at 500, 1000 and
// 2000 Hz, dB. Source: trade handbooks, read.
func PSIL(b Bands) float64 { return (b[4] + b[5] + b[6]) / 3 }

// Voice is how hard one speaks.
type Voice int

// Voices.
const (
	NormalVoice Voice = iota
	RaisedVoice
	LoudVoice
	Shout
)

// Understood is the index from which a voice counts as understood: systems below it are poor
// (ANSI S3.5-1997 annex A, from memory).
const Understood = 0.45

// SpeechSource is where the talking distances come from.
const SpeechSource = "speech intelligibility index of 0.45, ANSI S3.5-1997, third octaves with masking of high bands by low ones (from memory)"

// Nominal centres of the third octaves from 25 Hz, three in each octave; the last of 8 kHz carries no
// speech. Speech begins at 160 Hz.
var thirds = [...]float64{25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250,
	1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000}

const lowest = 8 // index of 160 Hz

// spread is lg2(0.89 f/f_k) for a band k and one over it.
var spread = func() (x [len(thirds)][len(thirds)]float64) {
	for k, low := range thirds {
		for i, f := range thirds {
			x[k][i] = math.Log2(0.89 * f / low)
		}
	}
	return x
}()

//go:embed speech.csv
var speechText string

// speechBand is one third octave of the table.
type speechBand struct {
	importance float64
	voice      [Shout + 1]float64 // dB in 1 Hz at 1 m
	internal   float64            // dB in 1 Hz
}

var speechBands = mustSpeech(speechText)

// mustSpeech fails only if the program itself was built wrong.
func mustSpeech(text string) []speechBand {
	b, err := readSpeech(text)
	if err != nil {
		panic("embedded speech table: " + err.Error())
	}
	return b
}

func readSpeech(text string) (all []speechBand, err error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', 7
	records, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	for _, f := range records[1:] {
		var v [7]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(f[i], 64); err != nil {
				return nil, err
			}
		}
		if len(all)+lowest >= len(thirds) || v[0] != thirds[lowest+len(all)] {
			return nil, fmt.Errorf("%g Hz out of turn", v[0])
		}
		all = append(all, speechBand{v[1], [Shout + 1]float64(v[2:6]), v[6]})
	}
	return all, nil
}

// SpeechBands are the octave levels of speech 1 m before the lips, dB; octaves without speech are silent.
func SpeechBands(v Voice) Bands {
	b := Fill(Silent)
	for i, s := range speechBands {
		of := (lowest + i) / 3
		b[of] = Sum(b[of], s.voice[v]+10*math.Log10(thirds[lowest+i]*(math.Pow(10, 0.05)-math.Pow(10, -0.05))))
	}
	return b
}

// audibleShare is the share of one band's speech cues that is heard, 0 to 1: how far speech stands out of
// what disturbs it, less the distortion of loud speech,
//
//	A = (E - D + 15)/30 (1 - (E - U - 10)/160)
//
// each factor within 0 and 1. Spectrum levels in dB: speech, disturbance, and speech of a normal voice.
// Source: ANSI S3.5-1997 clause 5, from memory; its example of annex C comes out.
func audibleShare(speech, disturbance, normal float64) float64 {
	unit := func(x float64) float64 { return math.Max(0, math.Min(x, 1)) }
	return unit((speech-disturbance+15)/30) * unit(1-(speech-normal-10)/160)
}

// Intelligibility is the speech intelligibility index, 0 to 1, of a voice at a distance in m in the free
// field, 0 for no distance, among noise of octave levels in dB. Octaves are split evenly into thirds. Lower
// bands of noise and of the voice itself mask the higher ones; that noise below 160 Hz masks by the same form
// is judgement. Masking of low bands by high ones is not in it: noise above 2 kHz alone may lie worse than it
// says. Source: ANSI S3.5-1997, from memory.
func Intelligibility(noise Bands, v Voice, distance float64) (index float64) {
	if !(distance > 0) {
		return 0
	}
	away := 20 * math.Log10(distance)
	disturbance := masked(noise, v, away)
	for i, s := range speechBands {
		d := math.Max(disturbance[lowest+i], s.internal)
		index += s.importance * audibleShare(s.voice[v]-away, d, s.voice[NormalVoice])
	}
	return index
}

// masked is the masking spectrum level, dB in 1 Hz, of each third octave that carries speech: the noise there
// and what spreads up from the bands under it, of noise or of the voice itself 24 dB below its level.
//
//	Z = 10 lg(10^(N/10) + sum over k of 10^((B_k + C_k lg2(0.89 f/f_k))/10)) ,  C = 0.6 (B + 10 lg f - 6.353) - 80
//
// with C in dB an octave. Source: ANSI S3.5-1997 clause 4.3.2, from memory.
func masked(noise Bands, v Voice, away float64) (level [len(thirds)]float64) {
	own := split(noise)
	for i, n := range own {
		level[i] = Power(n)
	}
	for k, b := range own {
		if k >= lowest {
			b = math.Max(b, speechBands[k-lowest].voice[v]-away-24)
		}
		slope := 0.6*(b+10*math.Log10(thirds[k])-6.353) - 80
		for i := max(k+1, lowest); i < len(level); i++ {
			level[i] += Power(b + slope*spread[k][i])
		}
	}
	for i, x := range level {
		level[i] = Level(x)
	}
	return level
}

// split gives the spectrum level, dB in 1 Hz, of each third octave, even over its octave.
func split(noise Bands) (level [len(thirds)]float64) {
	for b, l := range noise {
		l -= 10 * math.Log10(Exact[b]*(math.Pow(10, 0.15)-math.Pow(10, -0.15)))
		for i := 3 * b; i < min(3*b+3, len(level)); i++ {
			level[i] = l
		}
	}
	return level
}

// TalkDistance is the greatest distance in m at which a voice is understood among noise of octave levels
// in dB, by Understood. Speech falls by 6 dB per doubling, as in the open or near the talker; beyond some
// 7 m that is an extrapolation. 0: not even at 1 mm.
//
// Nearer by x dB the index rises by x/30 at most (each band by that times its importance), so a step of 30
// times what is missing passes no distance at which the voice is understood, however short the stretch:
// speech that masking leaves only just understood is spoilt again by its own loudness a few dB nearer.
func TalkDistance(noise Bands, v Voice) float64 {
	const far, near, fine = 80.0, -60.0, 0.01 // dB re 1 m
	const rounding = 1e-9                     // of the index: where it is linear a step lands on the distance itself, and the last bits don't decide
	for db := far; db >= near; {
		r := math.Pow(10, db/20)
		missing := Understood - Intelligibility(noise, v, r)
		if missing <= rounding {
			return r
		}
		if math.IsNaN(missing) {
			break
		}
		db -= math.Max(fine, 30*missing)
	}
	return 0
}
