package sound_test

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/dsp/fourier"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/recording"
	"hushwake/path/recording/audio"
	"hushwake/path/recording/meter"
	"hushwake/path/recording/order"
	"hushwake/path/recording/recordingtest"
	"hushwake/path/scene"
	"hushwake/path/sound"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// predicted are some layouts of the demo, worked out once.
func predicted(t testing.TB) (all []path.Prediction) {
	if demo == nil {
		b, err := boatfile.LoadFile("../../testdata/dry-stack.yaml")
		require.NoError(t, err)
		session := scene.NewSession(b)
		for _, l := range b.Layouts[:2] {
			p, err := session.Predict(l, path.Routes)
			require.NoError(t, err)
			demo = append(demo, p)
		}
	}
	return demo
}

var demo []path.Prediction

// A file that is rendered, written and read again has the level of every octave and of the whole that was predicted: by the
// averaged spectrum and by the filters of a sound level meter; so the difference of two layouts is theirs.
func TestAFileReadsAsPredicted(t *testing.T) {
	ps := predicted(t)
	s := []sound.Sound{sound.Of(&ps[0], 0), sound.Of(&ps[1], 0)}
	l, err := sound.NewLoop(48000, 10, s...)
	require.NoError(t, err)
	x := [][]float64{sound.Render(s[0], l, 1), sound.Render(s[1], l, 1)}
	full := sound.Full(x...)
	var levels []float64
	for i, p := range ps {
		h := p.Listeners[0]
		own := s[i].Bands()
		require.InDeltaSlice(t, h.Bands[:], own[:], 1e-6)
		bands, filtered, dBA := measured(t, sound.Scaled(x[i], full), l.Rate)
		bands, filtered = bands.Shift(full), filtered.Shift(full)
		assert.InDeltaSlice(t, h.Bands[:], bands[:], 0.1, "by spectrum")
		want := throughFilters(l, x[i])
		// 0.2 dB was set at first. 8 kHz missed it by 0.14, was given 0.5 and then left out, as long as filters were expected that the
		// bilinear transform does not warp: there a sampled one's lower skirt lies 2.5 dB higher. With that in what is expected it
		// misses by 0.01, and all nine octaves keep to the 0.2 (0.15 at most, in the lowest).
		assert.InDeltaSlice(t, want[:], filtered[:], 0.2, "by filter, over whole seconds and not whole loops")
		assert.InDelta(t, h.DBA(), dBA+full, 0.1)
		// the mean of the standard leaves out what stands 6 dB over it: on falling noise the file's own spectrum says more
		tones := meter.NewTones(l.Rate)
		tones.Add(x[i])
		found := tones.StandsOut()
		tone := h.Ear().Tone
		assert.InDelta(t, tone.Frequency, found.Frequency, 3)
		assert.InDelta(t, tone.Audibility+3, found.Audibility, 4)
		levels = append(levels, dBA)
	}
	assert.InDelta(t, ps[0].Listeners[0].DBA()-ps[1].Listeners[0].DBA(), levels[0]-levels[1], 0.1)
}

// The filters of a sound level meter read even noise 0.20 dB over its octave, since they are wider, and a tone in its middle as it
// is: a way of its own from the file to what was put in.
func TestAMeterReadsWhatWasPutIn(t *testing.T) {
	s := sound.Sound{Broad: spectrum.Fill(60)}
	for _, b := range []int{1, 3, 5} {
		s.Broad[b] = 40
		s.Lines = append(s.Lines, sound.Line{Cycle: spectrum.Exact[b], Multiple: 1, Level: 70})
	}
	l, err := sound.NewLoop(48000, 10, s)
	require.NoError(t, err)
	x := sound.Render(s, l, 1)
	full := sound.Full(x)
	_, filtered, _ := measured(t, sound.Scaled(x, full), l.Rate)
	for b, v := range filtered[:8] {
		switch want := 60.2; {
		case s.Broad[b] == 40:
			assert.InDelta(t, 70, v+full, 0.1, "octave %d", b)
		case b == 7:
			assert.InDelta(t, want, v+full, 0.15, "octave %d", b)
		}
	}
}

// throughFilters is what octave filters of three pole pairs, sampled by the bilinear transform, read of a loop: what lies by an edge
// passes into both.
func throughFilters(l sound.Loop, x []float64) (read spectrum.Bands) {
	c := fourier.NewFFT(len(x)).Coefficients(nil, x)
	warped := func(f float64) float64 { return math.Tan(math.Pi * f / float64(l.Rate)) }
	for b, centre := range spectrum.Exact {
		low, high := warped(centre*math.Pow(10, -0.15)), warped(centre*math.Pow(10, 0.15))
		for k := 1; k < len(c); k++ {
			f := warped(float64(k) / l.Seconds())
			passed := 1 / (1 + math.Pow((f-low*high/f)/(high-low), 6))
			read[b] += 2 * (real(c[k])*real(c[k]) + imag(c[k])*imag(c[k])) / float64(len(x)*len(x)) * passed
		}
		read[b] = spectrum.Level(read[b])
	}
	return read
}

// measured plays a loop twice through a file.
func measured(t *testing.T, x []float64, rate int) (bands, filtered spectrum.Bands, dBA float64) {
	var b bytes.Buffer
	require.NoError(t, audio.Write(&b, audio.Format{Rate: rate, Channels: 1, Bits: 24}, append(append([]float64(nil), x...), x...)))
	in, err := audio.New(&b)
	require.NoError(t, err)
	spec, bank, block := meter.NewSpectrum(rate), meter.NewBank(rate), make([]float64, 4096)
	for {
		n, err := in.Read(block)
		spec.Add(block[:n])
		bank.Add(block[:n])
		if err != nil {
			break
		}
	}
	require.NoError(t, spec.Close())
	for i := range filtered {
		sum := 0.0
		for _, s := range bank.Seconds[5:] {
			sum += spectrum.Power(s[i]) / float64(len(bank.Seconds)-5)
		}
		filtered[i] = spectrum.Level(sum)
	}
	return spec.Octaves(), filtered, spec.Weighted(spectrum.AAt)
}

func TestPhasesAreTheEngines(t *testing.T) {
	ps := predicted(t)
	s := sound.Of(&ps[0], 0)
	e := ps[0].Layout.Engines[0]
	phases := e.LinePhases(ps[0].Exhausts[0].Source.Duty)
	for _, l := range s.Lines {
		require.InDelta(t, phases[l.Multiple-1]+math.Pi/2, l.Phase, 1e-9)
		require.InDelta(t, ps[0].Exhausts[0].Source.CycleFrequency, l.Cycle, 1e-9)
	}
	f, level, ok := s.Firing()
	require.True(t, ok)
	require.InDelta(t, float64(ps[0].Exhausts[0].Source.FiringFrequency), f, 1e-6)
	require.Less(t, level, ps[0].Listeners[0].Bands.Total())
	for i := range s.Lines {
		if l := &s.Lines[i]; l.Fires {
			require.Equal(t, l.Level, level)
			l.Level -= 40
		}
	}
	weak, at, ok := s.Firing()
	require.True(t, ok)
	require.Equal(t, f, weak, "a weak firing order is still the firing order")
	require.InDelta(t, level-40, at, 1e-9)
	for i := range s.Lines {
		s.Lines[i].Fires = false
	}
	_, _, ok = s.Firing()
	require.False(t, ok)
}

// What listens to a file gives back the prediction that it was rendered from: speed, orders and octaves.
func TestListeningGivesThePredictionBack(t *testing.T) {
	for i, p := range predicted(t)[:1] {
		s := sound.Of(&p, 0)
		l, err := sound.NewLoop(48000, 10, s)
		require.NoError(t, err)
		x := sound.Render(s, l, 1)
		full := sound.Full(x)
		x = sound.Scaled(x, full)
		r, err := recording.Open(recordingtest.Save(t, "rendered.wav", l.Rate, slices.Concat(x, x, x, x, x, x)))
		require.NoError(t, err)
		e, duty := p.Layout.Engines[0], p.Exhausts[0].Source.Duty
		r.Listen(recording.Hint{Kind: order.Engine{Cylinders: e.Cylinders, TwoStroke: e.Stroke == source.TwoStroke}, Speed: 0.9 * duty.Speed})
		require.NotNil(t, r.Lines, "layout %d", i)
		assert.InEpsilon(t, duty.Speed, r.Lines.Speed, 0.003)
		heard := r.Bands.Shift(full)
		assert.InDeltaSlice(t, p.Listeners[0].Bands[:], heard[:], 0.1)
		lines, _ := p.Listeners[0].Lines()
		found := 0
		for _, o := range r.Lines.Orders {
			for _, want := range lines {
				// noise of its own width may move a line that stands 20 dB out of it by 0.8 dB, more likely by 0.1; with lines from
				// 15 dB on, tried first, one of forty missed by 0.38
				if math.Abs(want.Order-o.Order) < 1e-6 && o.Over > 20 {
					assert.InDelta(t, want.Level, o.Level+full, 0.2, "order %g", o.Order)
					found++
				}
			}
		}
		assert.Greater(t, found, 5)
	}
}
