package recording

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/recording/audio"
	"hushwake/path/recording/meter"
	"hushwake/path/recording/order"
	"hushwake/path/recording/recordingtest"
	"hushwake/source/spectrum"
	"hushwake/testdata/turns"
)

const rate = 24000

// saved writes samples as a file of 24 bits.
func saved(t testing.TB, samples []float64) string {
	return recordingtest.Save(t, "a.wav", rate, samples)
}

func opened(t testing.TB, samples []float64, h Hint) *Recording {
	r, err := Open(saved(t, samples))
	require.NoError(t, err)
	r.Listen(h)
	return r
}

var four = recordingtest.Engine{Cylinders: 4, Speed: 1830, Drift: 0.005, Scatter: 0.05, Noise: -20, Seed: 11}

var ofFour = Hint{Kind: order.Engine{Cylinders: 4}, Speed: 1780}

// From the file to the lines: levels are those of the samples, orders those that the sound was made of, and the octave filters,
// which share nothing with the spectrum, read the same bands.
func TestAFileIsTakenApart(t *testing.T) {
	sound := four.Record(rate, 20)
	r := opened(t, sound.Samples, ofFour)
	require.Empty(t, r.Warnings)
	require.Empty(t, r.Candidates)
	require.InDelta(t, 20, r.Seconds, 1e-9)
	require.InEpsilon(t, sound.Mean, r.Lines.Speed, 0.001)
	whole := 0.0
	for _, v := range sound.Samples {
		whole += v * v / float64(len(sound.Samples))
	}
	require.InDelta(t, spectrum.Level(whole), r.Z, 0.05)
	for _, l := range r.Lines.Orders {
		if l.Over > 35 {
			require.InDelta(t, spectrum.Level(sound.Orders[l.Order]), l.Level, 0.2, "order %g", l.Order)
		}
	}
	bank := meter.NewBank(rate)
	bank.Add(sound.Samples)
	filtered := spectrum.SumBands(bank.Seconds[1:]...).Shift(-10 * math.Log10(19))
	q := 1 / (math.Pow(10, 0.15) - math.Pow(10, -0.15))
	for b := 1; b <= 5; b++ { // lines pass the filters of all octaves in part, noise by pi/6 / sin(pi/6) more (derived)
		want := spectrum.Power(r.Lines.Broadband[b]) * math.Pi / 3
		for _, l := range r.Lines.Orders {
			x := l.Frequency / spectrum.Exact[b]
			want += spectrum.Power(l.Level) / (1 + math.Pow(q*(x-1/x), 6))
		}
		require.InDelta(t, spectrum.Level(want), filtered[b], 0.3, "%g Hz", spectrum.Nominal[b])
	}
	name := saved(t, sound.Samples)
	same, err := Measure(name)
	require.NoError(t, err)
	again, err := Measure(name)
	require.NoError(t, err)
	require.Equal(t, same, again)
	require.Equal(t, r.Bands, same.Bands)
	require.Equal(t, r.A, same.A)
}

// Without cylinders or a speed nothing is decided: up to three candidates.
func TestNothingIsDecidedInSilence(t *testing.T) {
	sound := four.Record(rate, 12)
	for _, h := range []Hint{{}, {Kind: ofFour.Kind}, {Speed: 1780}} {
		r := opened(t, sound.Samples, h)
		require.Nil(t, r.Lines, "%+v", h)
		require.NotEmpty(t, r.Candidates)
		require.LessOrEqual(t, len(r.Candidates), 3)
	}
	r := opened(t, (recordingtest.Engine{Cylinders: 1, Speed: 1e-6, Noise: 0}).Record(rate, 12).Samples, ofFour)
	require.Nil(t, r.Lines)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "no lines of an engine stand out")
	r = opened(t, (recordingtest.Engine{Cylinders: 1, Speed: 1e-6, Noise: 0}).Record(rate, 12).Samples, Hint{})
	require.Empty(t, r.Candidates)
}

// Of two recordings of one phone the bands differ by what came between them, to 0.1 dB, and the orders too.
func TestDifferences(t *testing.T) {
	before, after := four, four
	after.Level = 0.1 * math.Pow(10, -0.4) // 8 dB less
	d := Against(opened(t, before.Record(rate, 20).Samples, ofFour), opened(t, after.Record(rate, 20).Samples, ofFour))
	require.InDelta(t, -8, d.A, 0.1)
	for b := 1; b < 9; b++ {
		require.InDelta(t, -8, d.Bands[b], 0.1)
	}
	require.Greater(t, len(d.Orders), 6)
	for _, o := range d.Orders {
		require.InDelta(t, -8, o.Difference, 0.1)
	}
	require.Empty(t, d.Warnings)
	slower := four
	slower.Speed = 1700
	d = Against(opened(t, before.Record(rate, 12).Samples, ofFour), opened(t, slower.Record(rate, 12).Samples, ofFour))
	require.Contains(t, strings.Join(d.Warnings, "\n"), "rpm against")
}

// Half a cylinder short is found in two recordings, ordinary scatter is not called weak, nor what one recording alone shows: twenty engines, of which one may be missed; a run takes five.
func TestWeakCylinder(t *testing.T) {
	engines, found, wrong := 0, 0, 0
	for i := range turns.Of(t, 20, 5) {
		engines++
		seed := uint64(i)
		e := recordingtest.Engine{Cylinders: []int{4, 6}[seed%2], Speed: 1500 + 40*float64(seed), Drift: 0.003, Scatter: 0.02, Noise: -30, Seed: seed}
		h := Hint{Kind: order.Engine{Cylinders: e.Cylinders}, Speed: e.Speed}
		heard := func(weak, seconds float64) *Recording {
			e.Weak = weak
			r := &Recording{signal: order.NewSignal(8000)}
			r.signal.Add(e.Record(8000, seconds).Samples)
			r.part(order.Whiten(r.signal).Follow(h.Kind, h.Speed*0.9, h.Speed*1.1), h)
			return r
		}
		half := heard(0.6, 10)
		if WeakCylinder(half, heard(0.6, 11)) {
			found++
		}
		tenth := heard(0.1, 10)
		if WeakCylinder(tenth, heard(0.1, 11)) {
			wrong++
		}
		require.False(t, WeakCylinder(half, tenth))
	}
	require.GreaterOrEqual(t, found, engines-1)
	require.Zero(t, wrong)
}

func TestClippingIsSeen(t *testing.T) {
	loud := four
	loud.Level = 0.4
	x := loud.Record(rate, 10).Samples
	cut := false
	for i, v := range x {
		x[i] = math.Min(math.Max(v, -0.8), 0.8)
		cut = cut || x[i] != v
	}
	require.True(t, cut)
	r := opened(t, x, ofFour)
	require.True(t, r.Clipped)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "clipped")
	for _, level := range []float64{0.02, 0.1, 0.2} { // not clipped, down to a slow pure tone of 16 bits
		x := make([]float64, 10*rate)
		for i := range x {
			x[i] = math.Round(32767*level*math.Sqrt2*math.Sin(2*math.Pi*31.7*float64(i)/rate)) / 32768
		}
		l, err := Measure(saved(t, x))
		require.NoError(t, err)
		require.False(t, l.Clipped, "%g", level)
	}
}

func TestWindAndAutomaticGainAreSeen(t *testing.T) {
	x := four.Record(rate, 20).Samples
	gusts, state := append([]float64(nil), x...), [2]float64{}
	r := (recordingtest.Engine{Cylinders: 1, Speed: 1e-6, Noise: 0, Level: 1, Seed: 2}).Record(rate, 20).Samples
	for i, v := range r {
		state[0] += (v - state[0]) * 2 * math.Pi * 8 / rate
		state[1] += (state[0] - state[1]) * 2 * math.Pi * 8 / rate
		gusts[i] = 0.06*gusts[i] + 0.35*state[1]
	}
	blown := opened(t, gusts, ofFour)
	require.NotNil(t, blown.Lines)
	require.Contains(t, strings.Join(blown.Warnings, "\n"), "wind")
	for i := range gusts {
		state[0] += (r[i] - state[0]) * 2 * math.Pi * 8 / rate
		state[1] += (state[0] - state[1]) * 2 * math.Pi * 8 / rate
		gusts[i] = 0.05*state[1] + 1e-4*r[i] // no engine at all
	}
	require.Contains(t, strings.Join(opened(t, gusts, ofFour).Warnings, "\n"), "wind")
	pumped := append([]float64(nil), x...)
	for i := range pumped {
		pumped[i] *= math.Pow(10, 0.25*math.Sin(2*math.Pi*float64(i)/rate/9))
	}
	require.Contains(t, strings.Join(opened(t, pumped, ofFour).Warnings, "\n"), "automatic gain")
}

func TestWhatIsRefused(t *testing.T) {
	for want, x := range map[string][]float64{"too short": make([]float64, 4*rate), "silence": make([]float64, 10*rate)} {
		_, err := Open(saved(t, x))
		require.ErrorContains(t, err, want)
		require.ErrorContains(t, err, "hint:")
	}
	name := filepath.Join(t.TempDir(), "a.m4a")
	require.NoError(t, os.WriteFile(name, append([]byte("\x00\x00\x00 ftypM4A "), make([]byte, 100)...), 0o600))
	_, err := Measure(name)
	require.ErrorContains(t, err, "M4A")
	short := opened(t, four.Record(rate, 7).Samples, ofFour)
	require.Contains(t, strings.Join(short.Warnings, "\n"), "short")
	slow := opened(t, (recordingtest.Engine{Cylinders: 4, Speed: 420, Noise: -30}).Record(rate, 5.2).Samples, Hint{Kind: ofFour.Kind, Speed: 420})
	require.Contains(t, strings.Join(slow.Warnings, "\n"), "too few to part lines; record 20 s")
	var b bytes.Buffer
	require.NoError(t, audio.Write(&b, audio.Format{Rate: rate, Channels: 1, Bits: 16}, make([]float64, rate)))
	require.NoError(t, os.WriteFile(name, b.Bytes()[:b.Len()-7], 0o600))
	_, err = Open(name)
	require.ErrorContains(t, err, "breaks off")
}
