package meter

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/source/spectrum"
	"hushwake/testdata"
)

// The published limits of filters and weightings are met.
func TestPublishedLimits(t *testing.T) {
	rows, err := testdata.Checks()
	require.NoError(t, err)
	n := 0
	for _, r := range rows {
		if strings.HasPrefix(r.Function, "meter.") {
			v, err := Checks[r.Function](r.Args)
			require.NoError(t, err, r.ID)
			require.InDelta(t, r.Expected, v, r.Tolerance+1e-12, r.ID)
			n++
		}
	}
	require.Greater(t, n, 70)
}

// The analogue band-pass has closed attenuation 10 lg(1 + (Q (f/fm - fm/f))^6), Q = 1/(10^0.15 - 10^-0.15); far below
// half the sampling rate the filter is that (derived; 0.02 dB).
func TestFilterIsTheAnalogueOne(t *testing.T) {
	q := 1 / (octaveEdge - 1/octaveEdge)
	for _, ratio := range []float64{0.25, 0.5, 0.7, 0.9, 1, 1.1, 1.3, octaveEdge, 2, 4} {
		want := 10 * math.Log10(1+math.Pow(q*(ratio-1/ratio), 6))
		require.InDelta(t, want, attenuation(2, ratio), 0.02, "%g", ratio)
	}
}

// steady is noise of a known slope with a tone in the middle of an octave.
func steady(n int, rate float64, seed uint64) []float64 {
	r := rand.New(rand.NewPCG(seed, 1))
	x := make([]float64, n)
	state := 0.0
	for i := range x {
		white := r.NormFloat64()
		state = 0.9*state + white
		x[i] = 0.01*(state+0.3*white) + 0.01*math.Sin(2*math.Pi*126*float64(i)/rate)
	}
	return x
}

// The filters and the spectrum, which have nothing in common, read the same octaves of steady noise.
func TestFiltersAgreeWithTheSpectrum(t *testing.T) {
	const rate = 48000
	x := steady(40*rate, rate, 7)
	s := NewSpectrum(rate)
	for from := 0; from < len(x); from += 10007 { // blocks of any size
		s.Add(x[from:min(from+10007, len(x))])
	}
	require.NoError(t, s.Close())
	spectral, filtered := s.Octaves(), FilteredOctaves(x, rate)
	for b := range spectral {
		tolerance := 0.1
		if b < 2 {
			tolerance = 0.5 // few independent samples of narrow noise
		}
		if b == 1 || b == 3 {
			tolerance = 0.3 // the skirt of the tone in the next octave
		}
		require.InDelta(t, filtered[b], spectral[b], tolerance, "%g Hz", spectrum.Nominal[b])
	}
	whole := 0.0
	for _, v := range x {
		whole += v * v / float64(len(x))
	}
	require.InDelta(t, spectrum.Level(whole), s.Weighted(nil), 0.05, "Parseval")
	thirds := s.ThirdOctaves()
	for b := 1; b < 8; b++ { // three thirds are an octave
		at := 3*b + 1
		require.InDelta(t, spectral[b], spectrum.Sum(thirds[at-1], thirds[at], thirds[at+1]), 1e-9)
	}
}

// A tone has its level in its band and its weight in A and C at its own frequency, whatever the rate and the length.
func TestAToneIsMeasured(t *testing.T) {
	for _, rate := range []int{8000, 44100, 48000, 96000} {
		for _, seconds := range []float64{0.7, 8, 20.3} {
			s, x := NewSpectrum(rate), make([]float64, int(seconds*float64(rate)))
			for i := range x {
				x[i] = 0.3 + 0.1*math.Sqrt2*math.Sin(2*math.Pi*170*float64(i)/float64(rate))
			}
			s.Add(x)
			require.NoError(t, s.Close())
			require.InDelta(t, -20, s.Octaves()[2], 0.001, "%d %g", rate, seconds)
			require.InDelta(t, -20+spectrum.AAt(170), s.Weighted(spectrum.AAt), 0.03)
			require.InDelta(t, -20+spectrum.CAt(170), s.Weighted(spectrum.CAt), 0.03)
			if rate == 8000 {
				require.Equal(t, spectrum.Silent, s.Octaves()[7], "half the rate lies in the octave")
			}
		}
	}
}

func TestBadInput(t *testing.T) {
	require.Error(t, NewSpectrum(48000).Close())
	for _, f := range []float64{0, -1, math.NaN(), 8000} {
		_, err := NewFilter(f, 16000)
		require.Error(t, err)
	}
	require.Equal(t, []int{384000, 345600, 1, 1}, []int{Smooth(384000), Smooth(345700), Smooth(1), Smooth(0) + 1})
}

func BenchmarkMinute(b *testing.B) {
	x := steady(60*48000, 48000, 1)
	b.ReportAllocs()
	for b.Loop() {
		s := NewSpectrum(48000)
		s.Add(x)
		if err := s.Close(); err != nil {
			b.Fatal(err)
		}
	}
}
