package assimilate

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// strata are the middles of n slices of equal probability of the unit normal: a Latin hypercube in
// one dimension (McKay, Beckman and Conover 1979), of mean 0, scaled to a variance of 1.
func strata(n int) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = distuv.UnitNormal.Quantile((float64(i) + 0.5) / float64(n))
	}
	sd := deviation(s)
	for i := range s {
		s[i] /= sd
	}
	return s
}

// centre takes the mean out and gives it.
func centre(v []float64) (mean float64) {
	mean = stat.Mean(v, nil)
	for i := range v {
		v[i] -= mean
	}
	return mean
}

func deviation(v []float64) float64 { return math.Sqrt(stat.Variance(v, nil)) }
