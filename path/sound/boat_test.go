package sound_test

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/recording/audio"
	"hushwake/path/recording/meter"
	"hushwake/path/sound"
	"hushwake/source/spectrum"
)

// predicted are some layouts of the demo.
func predicted(t testing.TB) (all []path.Prediction) {
	b, err := boatfile.LoadFile("../../testdata/dry-stack.yaml")
	require.NoError(t, err)
	session := path.NewSession(b)
	for _, l := range b.Layouts[:2] {
		p, err := session.Predict(l, path.Routes)
		require.NoError(t, err)
		all = append(all, p)
	}
	return all
}

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
		want := throughFilters(h)
		assert.InDeltaSlice(t, want[:8], filtered[:8], 0.2, "by filter")
		assert.InDelta(t, want[8], filtered[8], 0.5, "0.2 dB missed by 0.14: a digital filter ends at half the sampling rate")
		assert.InDelta(t, h.DBA(), dBA+full, 0.1)
		levels = append(levels, dBA)
	}
	assert.InDelta(t, ps[0].Listeners[0].DBA()-ps[1].Listeners[0].DBA(), levels[0]-levels[1], 0.1)
}

// density of noise goes straight in dB over lg f from one octave's middle to the next.
func density(broad spectrum.Bands, f float64) float64 {
	x := math.Max(0, math.Min(math.Log10(f/spectrum.Exact[0])/0.3, spectrum.N-1))
	c := min(int(x), spectrum.N-2)
	each := func(b int) float64 {
		low, high := spectrum.Edges(b)
		return broad[b] - 10*math.Log10(high-low)
	}
	return each(c) + (x-float64(c))*(each(c+1)-each(c))
}

// throughFilters is what octave filters of three pole pairs read of a prediction: what lies by an edge passes into both.
func throughFilters(h path.Heard) (read spectrum.Bands) {
	passed := func(f, centre float64) float64 {
		w, q := f/centre, 1/(math.Pow(10, 0.15)-math.Pow(10, -0.15))
		return 1 / (1 + math.Pow((w-1/w)*q, 6))
	}
	lines, broad := h.Lines()
	for b, centre := range spectrum.Exact {
		for _, l := range lines {
			read[b] += spectrum.Power(l.Level) * passed(l.Frequency, centre)
		}
		for o, level := range broad {
			low, high := spectrum.Edges(o)
			passes, all := 0.0, 0.0
			for p := range 400 {
				f := low + (high-low)*(float64(p)+0.5)/400
				e := spectrum.Power(density(broad, f))
				all, passes = all+e, passes+e*passed(f, centre)
			}
			read[b] += spectrum.Power(level) * passes / all
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
	f, level, ok := s.Strongest()
	require.True(t, ok)
	require.InDelta(t, ps[0].Exhausts[0].Source.FiringFrequency, f, 1e-6, "as found the firing order is the strongest")
	require.Less(t, level, ps[0].Listeners[0].Bands.Total())
}
