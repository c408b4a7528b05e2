package sound

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/dsp/fourier"

	"hushwake/path/recording/audio"
	"hushwake/path/recording/meter"
	"hushwake/source/spectrum"
	"hushwake/source/spectrum/audibility"
)

// engine is a six at 1700 rpm in noise.
func engine() Sound {
	s := Sound{Broad: spectrum.Bands{62, 60, 64, 61, 57, 52, 47, 40, 33}}
	for k := 1; k <= 90; k++ {
		level := 75 - 0.4*float64(k)
		if k%6 != 0 {
			level -= 25
		}
		s.Lines = append(s.Lines, Line{Cycle: 1700.0 / 120, Multiple: k, Level: level, Phase: float64(k * k)})
	}
	return s
}

func loop(t testing.TB, rate int, seconds float64, s ...Sound) Loop {
	t.Helper()
	l, err := NewLoop(rate, seconds, s...)
	require.NoError(t, err)
	return l
}

// heard reads a loop back: the levels of its octaves, and of one bin, by a transform of its own.
func heard(l Loop, x []float64) (bands spectrum.Bands, bin func(f float64) float64) {
	c := fourier.NewFFT(len(x)).Coefficients(nil, x)
	power := func(k int) float64 {
		return 2 * (real(c[k])*real(c[k]) + imag(c[k])*imag(c[k])) / float64(len(x)*len(x))
	}
	for k := 1; k < len(c)-1; k++ {
		if b := spectrum.BandOf(float64(k) / l.Seconds()); b >= 0 {
			bands[b] += power(k)
		}
	}
	for b, e := range bands {
		bands[b] = spectrum.Level(e)
	}
	return bands, func(f float64) float64 { return spectrum.Level(power(int(math.Round(f * l.Seconds())))) }
}

func TestLevelsAreThoseOfTheSound(t *testing.T) {
	s := engine()
	for _, l := range []Loop{loop(t, 48000, 10, s), loop(t, 24000, 4, s)} {
		bands, bin := heard(l, Render(s, l, 1))
		want := s.Bands()
		assert.InDeltaSlice(t, want[:], bands[:], 0.001)
		assert.InDelta(t, spectrum.Sum(s.Broad.DBA(), linesDBA(s)), weighted(l, Render(s, l, 1)), 0.03, "weighed at each frequency as by octaves and orders")
		for _, line := range s.Lines {
			f := line.Cycle * float64(line.Multiple)
			assert.InDelta(t, line.Level, bin(f), 0.001, "%.1f Hz", f)
		}
		assert.Less(t, l.miss([]float64{1700.0 / 120}), 2e-4, "the speed is kept")
	}
}

func linesDBA(s Sound) float64 {
	sum := 0.0
	for _, l := range s.Lines {
		sum += spectrum.Power(l.Level + spectrum.AAt(l.Cycle*float64(l.Multiple)))
	}
	return spectrum.Level(sum)
}

// weighted is the A-weighted level of a loop, each bin at its own frequency.
func weighted(l Loop, x []float64) float64 {
	sum := 0.0
	for k, c := range fourier.NewFFT(len(x)).Coefficients(nil, x) {
		if k > 0 {
			sum += 2 * square(c) / float64(len(x)*len(x)) * spectrum.Power(spectrum.AAt(float64(k)/l.Seconds()))
		}
	}
	return spectrum.Level(sum)
}

// Noise alone, steep from octave to octave, keeps its A-weight too; by its density alone it would read 0.2 dB less.
func TestNoiseKeepsItsWeight(t *testing.T) {
	for _, slope := range []float64{-8, -5, 0, 5} {
		s := Sound{Broad: spectrum.Fill(70)}
		for b := range s.Broad {
			s.Broad[b] += slope * float64(b)
		}
		l := loop(t, 24000, 4)
		assert.InDelta(t, s.Broad.DBA(), weighted(l, Render(s, l, 1)), 0.05, "%g dB an octave", slope)
	}
}

func TestSilenceIsSilent(t *testing.T) {
	s := Sound{Broad: spectrum.Fill(spectrum.Silent)}
	for _, v := range Render(s, loop(t, 24000, 1, s), 1) {
		require.Less(t, math.Abs(v), 1e-6)
	}
	assert.Zero(t, Full(nil, []float64{0, 0}))
}

// Of two sounds that differ in one octave alone only that one is heard to differ: the noise is the same.
func TestEqualSeedsHaveEqualNoise(t *testing.T) {
	a, b := engine(), engine()
	b.Broad[5] += 6
	l := loop(t, 24000, 2, a)
	x, y := Render(a, l, 1), Render(b, l, 1)
	for i := range x {
		x[i] -= y[i]
	}
	bands, _ := heard(l, x)
	// 0.01 dB at first, missed by 0.09: within the octave the slope to its neighbours changes with the level too
	assert.InDelta(t, a.Broad[5]+20*math.Log10(math.Pow(10, 0.3)-1), bands[5], 0.2)
	for k, v := range bands {
		if k < 4 || k > 6 {
			assert.Less(t, v, a.Broad[k]-40, "octave %d", k)
		}
	}
	other := Render(a, l, 2)
	assert.NotEqual(t, y, other)
}

// A click at the seam would be heard where the sound itself has nothing, over the 8 kHz octave.
func TestLoopHasNoSeam(t *testing.T) {
	s := engine()
	l := loop(t, 48000, 1, s)
	x := Render(s, l, 1)
	above := func(x []float64, seam int) float64 {
		const n = 8192
		w := make([]float64, n)
		for i := range w {
			w[i] = x[seam-n/2+i] * math.Pow(math.Sin(math.Pi*float64(i)/n), 4)
		}
		c, total, high := fourier.NewFFT(n).Coefficients(nil, w), 0.0, 0.0
		for k, v := range c {
			if total += square(v); float64(k)*48000/n > 12500 {
				high += square(v)
			}
		}
		return 10 * math.Log10(high/total)
	}
	twice := append(append([]float64(nil), x...), x...)
	assert.Less(t, above(twice, len(x)), -100.0)
	cut := append(append([]float64(nil), x[:len(x)-37]...), x...)
	assert.Greater(t, above(cut, len(x)-37), -70.0, "a seam that does not fit shows")
}

func written(t *testing.T, x []float64, full float64) []byte {
	var b bytes.Buffer
	require.NoError(t, audio.Write(&b, audio.Format{Rate: 24000, Channels: 1, Bits: 24}, Scaled(x, full)))
	return b.Bytes()
}

// What another processor reckons otherwise in the last bits leaves the file as it is.
func TestSameBytes(t *testing.T) {
	s := engine()
	l := loop(t, 24000, 1, s)
	x := Render(s, l, 1)
	full := Full(x)
	off := engine()
	for i := range off.Lines {
		off.Lines[i].Level *= 1 + 2e-16
		off.Lines[i].Phase *= 1 + 2e-16
	}
	for b := range off.Broad {
		off.Broad[b] *= 1 - 2e-16
	}
	assert.Equal(t, written(t, x, full), written(t, Render(off, l, 1), full))
	assert.NotEqual(t, written(t, x, full), written(t, Render(s, l, 3), full))
}

func TestFullScale(t *testing.T) {
	x := []float64{0, -1000, 500}
	full := Full(x, []float64{20})
	assert.InDelta(t, 61, full, 0.1)
	y := Scaled(x, full)
	assert.LessOrEqual(t, 20*math.Log10(-y[1]), -headroom+1e-9)
	assert.Greater(t, 20*math.Log10(-y[1]), -headroom-0.11)
	assert.InDelta(t, 0.5, -y[2]/y[1], 1e-12, "one gain")
}

// Two engines half a turn of a beat apart swing together and against each other, and both keep their level.
func TestTwinsBeat(t *testing.T) {
	s := Sound{Broad: spectrum.Fill(spectrum.Silent)}
	for _, c := range []float64{14, 14.5} {
		s.Lines = append(s.Lines, Line{Cycle: c, Multiple: 6, Level: 80})
	}
	l := loop(t, 24000, 4, s)
	assert.Less(t, l.miss([]float64{14, 14.5}), 1e-3)
	x := Render(s, l, 1)
	_, bin := heard(l, x)
	assert.InDelta(t, 80, bin(84), 0.001)
	assert.InDelta(t, 80, bin(87), 0.001)
	rms := func(at float64) float64 {
		sum := 0.0
		for i := range 800 {
			v := x[(int(at*24000)+i)%len(x)]
			sum += v * v / 800
		}
		return spectrum.Level(sum)
	}
	most, least := math.Inf(-1), math.Inf(1)
	for at := 0.0; at < 1; at += 0.01 {
		most, least = math.Max(most, rms(at)), math.Min(least, rms(at))
	}
	assert.InDelta(t, 86, most, 0.5, "both together")
	assert.Less(t, least, 75.0, "and against each other")
}

// The length of a loop is sought so that engines of odd speeds keep them.
func TestLoopsFitEngines(t *testing.T) {
	s := Sound{Lines: []Line{{Cycle: 1703.0 / 120, Multiple: 6}, {Cycle: 1703 * 1.008 / 120, Multiple: 6}}}
	assert.Less(t, loop(t, 48000, 12, s).Miss(s), Loop{48000, 576000}.Miss(s)/3, "better than twelve seconds to the sample")
	l := loop(t, 48000, 12)
	assert.Equal(t, 12.0, l.Seconds(), "without engines the longest is taken")
}

func TestEnginesThatTurnAlikeAddEnergies(t *testing.T) {
	s := Sound{Broad: spectrum.Fill(spectrum.Silent), Lines: []Line{{14, 6, 80, 0, true}, {14, 6, 80, math.Pi, true}}}
	l := loop(t, 24000, 2, s)
	_, bin := heard(l, Render(s, l, 1))
	assert.InDelta(t, 83.01, bin(84), 0.01, "their phase is chance: the prediction's energy is kept")
}

// Cycles differ in height alone: the sidebands are those of a modulation of the amplitude, 3 % rms.
func TestCyclesDifferInHeight(t *testing.T) {
	s := Sound{Lines: []Line{{14, 6, 80, 0.7, true}}}
	r := newRing(loop(t, 24000, 8, s))
	r.addLines(s.Lines)
	r.vary(s.Lines, 1)
	k, sum := r.bin(s.Lines[0]), 0.0
	for d := 1; d < 40; d++ {
		up, down := r.rest[k+d]/r.lines[k], r.rest[k-d]/r.lines[k]
		require.InDelta(t, real(up), real(down), 1e-9)
		require.InDelta(t, imag(up), -imag(down), 1e-9)
	}
	for _, c := range r.rest {
		sum += square(c) / square(r.lines[k])
	}
	assert.InEpsilon(t, 0.03, math.Sqrt(sum), 0.25, "55 independent lines")
}

func TestVoice(t *testing.T) {
	v := VoiceNoise()
	assert.InDelta(t, 60, v.Bands().DBA(), 1e-9)
	assert.Greater(t, v.Broad[4], v.Broad[6]+5, "speech is strongest about 500 Hz")
	l := loop(t, 24000, 1, v)
	bands, _ := heard(l, Render(v, l, 1))
	assert.InDelta(t, 60, bands.DBA(), 0.01)
}

func TestLoopsThatCannotBe(t *testing.T) {
	for _, bad := range []struct {
		rate    int
		seconds float64
	}{{100, 4}, {48000, 0}, {48000, math.NaN()}, {48000, 1e6}, {1 << 30, 4}} {
		_, err := NewLoop(bad.rate, bad.seconds)
		assert.ErrorContains(t, err, "hint:")
	}
	high := Sound{Broad: spectrum.Fill(20), Lines: []Line{{5000, 3, 90, 0, false}, {11999.9, 1, 90, 0, true}}}
	l := loop(t, 24000, 1, high)
	bands, _ := heard(l, Render(high, l, 1))
	assert.InDelta(t, 20, bands[0], 0.001, "what the loop can't hold is left out and folds nowhere")
}

// What is predicted to stand out stands out of the file's own spectrum, by about as much.
func TestWhatStandsOutOfTheFile(t *testing.T) {
	s := Sound{Broad: whispers(40), Lines: []Line{{Cycle: 170, Multiple: 1, Level: 75}, {Cycle: 170, Multiple: 3, Level: 66}}}
	l := loop(t, 48000, 10, s)
	x := Render(s, l, 1)
	found := standsOut(x, l.Rate)
	said, _ := audibility.Predicted([]spectrum.Line{{Frequency: 170, Level: 75}, {Frequency: 510, Level: 66}}, s.Broad)
	assert.InDelta(t, said.Frequency, found.Frequency, 3)
	assert.InDelta(t, 75, found.Level, 0.3)
	assert.InDelta(t, said.Audibility, found.Audibility, 1.0, "noise leans within its octaves, and a spectrum of 3 s is not quite still")
	assert.Empty(t, standsOut(Render(Sound{Broad: s.Broad}, l, 1), l.Rate).Word(), "noise alone has no tone")
	assert.Empty(t, standsOut(x[:100], l.Rate).Word(), "too short to tell")
}

func standsOut(x []float64, rate int) audibility.Tone {
	m := meter.NewTones(rate)
	m.Add(x)
	return m.StandsOut()
}

// whispers is noise of a density in dB in 1 Hz.
func whispers(density float64) (b spectrum.Bands) {
	for i := range b {
		low, high := spectrum.Edges(i)
		b[i] = density + 10*math.Log10(high-low)
	}
	return b
}
