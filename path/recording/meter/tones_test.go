package meter

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/source/spectrum/audibility"
)

// hissing is a tone of an amplitude in white noise of a standard deviation.
func hissing(rate, seconds int, frequency, amplitude, deviation float64) (x []float64) {
	r := rand.New(rand.NewPCG(7, 20065))
	for i := range rate * seconds {
		x = append(x, amplitude*math.Sin(2*math.Pi*frequency*float64(i)/float64(rate))+deviation*r.NormFloat64())
	}
	return x
}

// tone adds samples in uneven pieces.
func tone(rate int, x []float64) audibility.Tone {
	m := NewTones(rate)
	for n := 1; len(x) > 0; n = min(3*n, len(x)) {
		m.Add(x[:n])
		x = x[n:]
	}
	return m.StandsOut()
}

// A tone in white noise stands out by its level over that of the noise in its critical band, which is known in closed form: the
// noise has 2 s²/rate in 1 Hz. The tolerance was set before: the mean of lines that vary leaves the highest out.
func TestToneInWhiteNoise(t *testing.T) {
	for _, rate := range []int{8000, 44100, 48000} {
		for _, f := range []float64{170, 1003} {
			const amplitude, deviation = 0.02, 0.05
			noise := 10 * math.Log10(2*deviation*deviation/float64(rate)*audibility.Bandwidth(f))
			want := 10*math.Log10(amplitude*amplitude/2) - noise - audibility.Index(f)
			x := hissing(rate, 10, f, amplitude, deviation)
			found := tone(rate, x)
			require.InDelta(t, f, found.Frequency, lineStep, "%d", rate)
			require.InDelta(t, want, found.Audibility, 1, "%g Hz at %d", f, rate)
			for i := range x {
				x[i] *= 0.01
			}
			require.InDelta(t, found.Audibility, tone(rate, x).Audibility, 1e-9, "no scale of levels is needed")
		}
	}
}

func TestNoToneStandsOut(t *testing.T) {
	for what, x := range map[string][]float64{"noise": hissing(8000, 10, 170, 0, 0.05), "silence": make([]float64, 80000), "nothing": nil, "too short": hissing(8000, 2, 170, 0.5, 0.01)} {
		require.Empty(t, tone(8000, x).Word(), what)
	}
	broken := hissing(8000, 9, 170, 0.5, 0.01)
	broken[12345] = math.NaN()
	found := tone(8000, broken)
	require.False(t, math.IsNaN(found.Audibility) || math.IsNaN(found.Frequency), "a spectrum that is none counts as one without a tone")
}
