package audibility

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/source/spectrum"
)

// Table E.1 of ISO/PAS 20065:2016, lines of a combustion engine's sound from 96.9 to 196.5 Hz, read in a transcription. The
// step is printed as 2.7 Hz; 37 steps span 99.6 Hz, which is 44 100/16 384 Hz each.
var engine = Narrow{First: 96.9, Step: 44100.0 / 16384, Levels: []float64{49.40, 50.68, 50.09, 53.37, 44.47, 50.91, 51.41, 59.40, 64.54, 57.57,
	51.02, 50.76, 59.93, 62.94, 58.49, 65.87, 62.66, 50.25, 51.32, 52.30, 52.58, 53.15, 67.04, 67.27, 57.40, 57.17, 52.56, 51.39, 52.49,
	47.68, 51.26, 49.03, 61.42, 59.52, 48.43, 50.84, 48.20, 55.95}}

func TestTheNarrowBandExampleOfTheStandard(t *testing.T) {
	require.NoError(t, engine.Check())
	const at = 15 // 137.3 Hz
	assert.InDelta(t, 137.3, engine.frequency(at), 0.05)
	assert.InDelta(t, 49.22, engine.Mean(at), 0.02)
	tone, distinct := engine.At(at)
	assert.True(t, distinct)
	assert.InDelta(t, 67.96, tone.Level, 0.02)
	assert.InDelta(t, 64.98, tone.Noise, 0.02)
	assert.InDelta(t, 4.99, tone.Audibility, 0.03)
	assert.InDelta(t, -2.02, Index(137.3), 0.005)
	joint, leads := together([]Tone{{118.4, 64.56, 64.67, 1.92}, tone, {158.8, 68.63, 66.3, 4.37}}, 1)
	assert.True(t, leads, "it stands out most of the three")
	assert.InDelta(t, 72.15, joint.Level, 0.02, "three tones of one critical band are heard as one")
	best, ok := engine.Decisive()
	assert.True(t, ok)
	assert.InDelta(t, 137.3, best.Frequency, 0.05, "the others' critical bands reach out of the table")
}

func TestDecisiveOfTheFiveSpectraOfTheStandard(t *testing.T) {
	assert.InDelta(t, 6.96, Decisive([]float64{9.18, 6.04, 7.46, 2.67, 7.17}), 0.05)
	assert.InDelta(t, 3, Decisive([]float64{3, 3, 3}), 1e-12)
	assert.Equal(t, NeverBelow, Decisive(nil))
	assert.InDelta(t, -2.6, Decisive([]float64{0, math.Inf(-1)}), 0.01, "silence counts with -10 dB")
}

func TestOneLineHasNoCorrectionForTheWindow(t *testing.T) {
	flat := Narrow{First: 300, Step: 2.5, Levels: make([]float64, 200)}
	one := flat
	one.Levels = append([]float64(nil), flat.Levels...)
	one.Levels[100] = 30
	tone, _ := one.At(100)
	assert.InDelta(t, 30, tone.Level, 1e-9)
	assert.InDelta(t, -hann, one.Mean(100), 1e-9)
	one.Levels[101] = 25
	tone, _ = one.At(100)
	assert.InDelta(t, spectrum.Sum(30, 25)-hann, tone.Level, 1e-9)
	_, ok := flat.Decisive()
	assert.False(t, ok, "noise alone has no tone")
}

// Noise that falls by 20 dB within the critical band has no tone at its shoulder, and a hump of 40 Hz is none either.
func TestShouldersAndHumpsAreNoTones(t *testing.T) {
	slope, hump := Narrow{First: 3, Step: 3, Levels: make([]float64, 200)}, Narrow{First: 3, Step: 3, Levels: make([]float64, 200)}
	for i := range slope.Levels {
		f := slope.frequency(i)
		slope.Levels[i] = 60 - 20*math.Max(0, math.Min((f-150)/30, 1)) + 0.01*float64(i%2)
		hump.Levels[i] = 40 + 15*math.Max(0, 1-math.Pow((f-300)/40, 2)) + 0.01*float64(i%2)
	}
	assert.Greater(t, slope.Mean(55), 45.0, "it does not run down the slope until one side is left")
	for _, s := range []Narrow{slope, hump} {
		_, ok := s.Decisive()
		assert.False(t, ok)
	}
}

// Two tones are heard as two from 21 Hz apart at 212 Hz, where they part the soonest, and never from 1 kHz up.
func TestTonesApart(t *testing.T) {
	assert.False(t, apart(212, 212+20.9))
	assert.True(t, apart(212, 212-21.1))
	assert.False(t, apart(100, 122))
	assert.False(t, apart(1000, 1400))
	assert.True(t, apart(999, 1400))
}

// What stands 6 dB over the mean is no noise: the mean itself is 1.76 dB under flat noise for the window.
func TestTheMeanLeavesOutWhatStands(t *testing.T) {
	s := Narrow{First: 300, Step: 2.5, Levels: make([]float64, 200)}
	s.Levels[90] = 4.7
	assert.InDelta(t, -hann, s.Mean(100), 1e-9)
	s.Levels[90] = 4.1
	assert.Greater(t, s.Mean(100), -hann+0.1)
}

func TestSpectraThatCannotBeJudged(t *testing.T) {
	assert.ErrorContains(t, Narrow{First: 20, Step: 12}.Check(), "1.9 to 4 Hz apart")
	assert.ErrorContains(t, Narrow{Step: 2}.Check(), "hint:")
	assert.ErrorContains(t, Narrow{First: 20, Step: 2, Levels: []float64{0, math.NaN()}}.Check(), "line 2")
}

func TestCriticalBands(t *testing.T) {
	for _, f := range []float64{20, 137.3, 1000, 8000} {
		low, high := edges(f)
		assert.InEpsilon(t, f*f, low*high, 1e-12)
		assert.InDelta(t, Bandwidth(f), high-low, 1e-9)
	}
	assert.InDelta(t, 100, Bandwidth(0), 1e-12)
	assert.InDelta(t, 101.36, Bandwidth(137.3), 0.01)
}

// whisper is the density of noise of so many dB in 1 Hz everywhere.
func whisper(density float64) (b spectrum.Bands) {
	for i := range b {
		low, high := spectrum.Edges(i)
		b[i] = density + 10*math.Log10(high-low)
	}
	return b
}

func TestOneLineInEvenNoiseIsTheStandardsOwnForm(t *testing.T) {
	for _, f := range []float64{60, 177, 500, 3000} {
		tone, ok := Predicted([]spectrum.Line{{Frequency: f, Level: 120}}, whisper(70))
		require.True(t, ok)
		low, high := edges(f)
		assert.InDelta(t, 70+10*math.Log10(high-low), tone.Noise, 0.01, "%g Hz", f)
		assert.InDelta(t, 120-tone.Noise-Index(f), tone.Audibility, 1e-9)
		raised, _ := Predicted([]spectrum.Line{{Frequency: f, Level: 121}}, whisper(70))
		assert.InDelta(t, 1, raised.Audibility-tone.Audibility, 1e-9, "a dB is a dB")
	}
}

// A prediction with the same lines on a flat floor says what the narrow-band form finds in the spectrum of it.
func TestPredictedAndFoundAgree(t *testing.T) {
	s := Narrow{First: 2.5, Step: 2.5, Levels: make([]float64, 2000)}
	for i := range s.Levels {
		s.Levels[i] = 40 + hann + 10*math.Log10(s.Step) // the window spreads noise over 1.5 lines
	}
	for _, l := range []spectrum.Line{{Frequency: 250, Level: 80}, {Frequency: 200, Level: 76}, {Frequency: 700, Level: 75}} {
		s.Levels[int(l.Frequency/s.Step)-1] = l.Level
	}
	found, _ := s.Decisive()
	said, _ := Predicted([]spectrum.Line{{Frequency: 700, Level: 75}, {Frequency: 250, Level: 80}, {Frequency: 200, Level: 76}}, whisper(40))
	assert.InDelta(t, 250, said.Frequency, 1e-9)
	assert.InDelta(t, found.Frequency, said.Frequency, 1e-9)
	assert.InDelta(t, found.Audibility, said.Audibility, 0.02)
	assert.InDelta(t, 80, said.Level, 0.01, "50 Hz apart they are two tones")
}

func TestLinesOfOneCriticalBandAddUp(t *testing.T) {
	comb := func(n int) (lines []spectrum.Line) {
		for k := range n {
			lines = append(lines, spectrum.Line{Frequency: 150 + 7*float64(k), Level: 70 + 0.001*float64(k%2)})
		}
		return lines
	}
	one, _ := Predicted(comb(1), whisper(30))
	four, _ := Predicted(comb(4), whisper(30))
	assert.InDelta(t, 6.02, four.Audibility-one.Audibility, 0.1)
}

func TestFaintLinesAreNeitherToneNorNoise(t *testing.T) {
	tone := spectrum.Line{Frequency: 300, Level: 75}
	alone, _ := Predicted([]spectrum.Line{tone}, whisper(40))
	with, _ := Predicted([]spectrum.Line{tone, {Frequency: 310, Level: alone.Noise - 3}}, whisper(40))
	assert.Equal(t, alone, with)
}

func TestWhatNobodyHearsIsNoTone(t *testing.T) {
	silent := spectrum.Fill(spectrum.Silent)
	for _, f := range []float64{25, 50, 1000} {
		at := Threshold(f)
		_, ok := Predicted([]spectrum.Line{{Frequency: f, Level: at - 0.1}}, silent)
		assert.False(t, ok, "%g Hz under the threshold", f)
		tone, ok := Predicted([]spectrum.Line{{Frequency: f, Level: at + 0.1}}, silent)
		assert.True(t, ok)
		assert.InDelta(t, 0.1, tone.Audibility, 1e-6)
	}
	_, ok := Predicted([]spectrum.Line{{Frequency: 12, Level: 140}, {Frequency: 11000, Level: 90}}, silent)
	assert.False(t, ok)
	_, ok = Predicted(nil, whisper(40))
	assert.False(t, ok)
	assert.Equal(t, 78.5, Threshold(5), "flat beyond the table")
	assert.Equal(t, 13.9, Threshold(2e4))
	assert.InDelta(t, 2.4, Threshold(1000), 1e-9)
}

func TestWords(t *testing.T) {
	for d, word := range map[float64]string{-3: "", 0: "", 0.1: "audible", 4: "audible", 4.1: "drone"} {
		assert.Equal(t, word, Tone{Audibility: d}.Word())
	}
}
