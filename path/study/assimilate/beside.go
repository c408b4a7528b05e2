package assimilate

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"hushwake/source/cores"
)

// Far is the number of deviations over which a reading lies far off what the draws expect, or two
// readings contradict each other (judgement).
const Far = 3.0

// Beside is how many deviations each reading lies from what the draws expect of it: h (readings x
// draws) before any reading, z = (y - median)/s, s half of what lies between the 16th and the 84th
// percentile and the reading's own error as squares. A reading of infinite error gives 0.
func Beside(h *mat.Dense, readings []Reading) []float64 {
	z := make([]float64, len(readings))
	cores.Each(len(readings), func(i int) {
		r := readings[i]
		v := append([]float64(nil), h.RawRowView(i)...)
		sort.Float64s(v)
		q := func(p float64) float64 { return stat.Quantile(p, stat.LinInterp, v, nil) }
		z[i] = (r.Value - q(0.5)) / math.Hypot((q(0.8413)-q(0.1587))/2, r.SD)
	})
	return z
}

// Pair is two readings that contradict each other.
type Pair struct {
	First, Second int
	Z             float64 // deviations that one lies from what the other lets expect
}

// Contradictions lists the pairs of which each reading alone is within Far of what the draws expect,
// but not the one where the other is known: by the covariances of h, that is for a normal h.
func Contradictions(h *mat.Dense, readings []Reading) (all []Pair) {
	z := Beside(h, readings)
	sd := make([]float64, len(readings))
	for i, r := range readings {
		sd[i] = math.Hypot(deviation(h.RawRowView(i)), r.SD)
	}
	for i := range readings {
		for j := 0; j < i; j++ {
			if math.Abs(z[i]) > Far || math.Abs(z[j]) > Far || math.IsInf(sd[i]+sd[j], 1) {
				continue
			}
			rho := stat.Covariance(h.RawRowView(i), h.RawRowView(j), nil) / (sd[i] * sd[j])
			if apart := (z[i] - rho*z[j]) / math.Sqrt(1-rho*rho); math.Abs(apart) > Far {
				all = append(all, Pair{j, i, apart})
			}
		}
	}
	return all
}
