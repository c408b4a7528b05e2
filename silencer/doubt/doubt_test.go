package doubt_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer/doubt"
)

// shared is the correlation of two doubts: the sum of the products of the weights of equal causes.
func shared(a, b doubt.Doubt) (sum float64) {
	for _, x := range a.Mix {
		for _, y := range b.Mix {
			if x.Key == y.Key {
				sum += x.Weight * y.Weight
			}
		}
	}
	return sum
}

// A Gaussian kernel over the logarithm of a size, a third of an octave wide: exp(-(d/w)^2/2) by hand, in the mean over
// sizes and forms, as six pairs of random features keep to it.
func TestNearSizesShareTheirError(t *testing.T) {
	for _, c := range []struct{ octaves, want, within float64 }{{0, 1, 1e-12}, {0.1, math.Exp(-0.045), 0.02}, {1.0 / 3, math.Exp(-0.5), 0.05}, {2, 0, 0.25}} {
		sum, n := 0.0, 0.0
		for _, form := range []string{"chamber", "packed", "plugged", "side_branch"} {
			for _, size := range []float64{0.05, 0.1, 0.3, 1} {
				a, b := doubt.Model("element model", form, []float64{size}), doubt.Model("element model", form, []float64{size * math.Exp2(c.octaves)})
				assert.InDelta(t, 1, shared(a, a), 1e-12, "squares of the weights add to 1")
				sum, n = sum+shared(a, b), n+1
			}
		}
		assert.InDelta(t, c.want, sum/n, c.within, "%.2f octaves apart", c.octaves)
	}
	assert.Zero(t, shared(doubt.Model("element model", "chamber", []float64{0.1}), doubt.Model("element model", "packed", []float64{0.1})), "another form is another cause")
	assert.Empty(t, shared(doubt.Doubt{}, doubt.Model("element model", "chamber", nil)), "no causes, nothing shared")
}
