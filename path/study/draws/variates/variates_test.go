package variates

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
)

// The language's own numbers, bit for bit: half a million normals pass the rims of all layers and some 290 times the tail.
func TestNormalsAreThoseOfTheLanguage(t *testing.T) {
	row := make([]float64, 1000)
	tails := 0
	for seed := range uint64(500) {
		Normals(row, seed<<20, seed)
		r := rand.New(rand.NewPCG(seed<<20, seed))
		for d, v := range row {
			require.Equal(t, r.NormFloat64(), v, "seed %d, number %d", seed, d)
			if math.Abs(v) > tail {
				tails++
			}
		}
	}
	require.InDelta(t, 5e5*math.Erfc(tail/math.Sqrt2), tails, 5*math.Sqrt(288))
}

func TestShuffleIsThatOfTheLanguage(t *testing.T) {
	for _, n := range []int{0, 1, 2, 3, 64, 1000, 10001} {
		got, want := make([]float64, n), make([]float64, n)
		for i := range got {
			got[i], want[i] = float64(i), float64(i)
		}
		Shuffle(got, 7, uint64(n))
		rand.New(rand.NewPCG(7, uint64(n))).Shuffle(n, func(i, j int) { want[i], want[j] = want[j], want[i] })
		require.Equal(t, want, got, "%d", n)
	}
}

// Moments of a unit normal, within four deviations of 1 000 000: mean 1e-3, variance 1.4e-3, fourth 1e-2.
func TestNormalsHaveUnitMoments(t *testing.T) {
	row := make([]float64, 1_000_000)
	Normals(row, 3, 4)
	require.InDelta(t, 0, stat.Mean(row, nil), 4e-3)
	require.InDelta(t, 1, stat.Variance(row, nil), 5.7e-3)
	require.InDelta(t, 3, stat.MomentAbout(4, row, 0, nil), 4e-2)
	Normals(nil, 1, 1) // nothing to fill
}

func BenchmarkNormals(b *testing.B) {
	row := make([]float64, 10000)
	b.Run("here", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			Normals(row, 1, 2)
		}
	})
	b.Run("language", func(b *testing.B) {
		for b.Loop() {
			r := rand.New(rand.NewPCG(1, 2))
			for d := range row {
				row[d] = r.NormFloat64()
			}
		}
	})
}
