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

// steady is white noise.
func steady(n int, seed uint64) []float64 {
	r, x := rand.New(rand.NewPCG(seed, 1)), make([]float64, n)
	for i := range x {
		x[i] = 0.01 * r.NormFloat64()
	}
	return x
}

// The filters and the spectrum, which have nothing in common, read the same octaves of white noise, but for the width that
// the filters have more: pi/6 / sin(pi/6) of a Butterworth filter of three pole pairs, 0.20 dB (derived).
func TestFiltersAgreeWithTheSpectrum(t *testing.T) {
	const rate = 48000
	x := steady(40*rate, 7)
	s := NewSpectrum(rate)
	for from := 0; from < len(x); from += 10007 { // blocks of any size
		s.Add(x[from:min(from+10007, len(x))])
	}
	require.NoError(t, s.Close())
	bank := NewBank(rate)
	for from := 0; from < len(x); from += 7001 {
		bank.Add(x[from:min(from+7001, len(x))])
	}
	require.Len(t, bank.Seconds, 40)
	spectral, filtered := s.Octaves(), spectrum.SumBands(bank.Seconds[1:]...).Shift(-10*math.Log10(39))
	wider := 10 * math.Log10(math.Pi/6/math.Sin(math.Pi/6))
	for b := range spectral {
		tolerance := 0.1
		if b < 3 {
			tolerance = 0.5 // few independent samples of narrow noise
		}
		require.InDelta(t, spectral[b]+wider, filtered[b], tolerance, "%g Hz", spectrum.Nominal[b])
	}
	whole := 0.0
	for _, v := range x {
		whole += v * v / float64(len(x))
	}
	require.InDelta(t, spectrum.Level(whole), s.Weighted(nil), 0.05, "Parseval")
	thirds := s.ThirdOctaves()
	for b := 1; b < 9; b++ { // three thirds are an octave
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
		_, err := newFilter(f, 16000)
		require.Error(t, err)
	}
	require.Equal(t, []int{384000, 345600, 1, 1}, []int{Smooth(384000), Smooth(345700), Smooth(1), Smooth(0) + 1})
}

func BenchmarkMinute(b *testing.B) {
	x := steady(60*48000, 1)
	b.ReportAllocs()
	for b.Loop() {
		s := NewSpectrum(48000)
		s.Add(x)
		if err := s.Close(); err != nil {
			b.Fatal(err)
		}
	}
}
