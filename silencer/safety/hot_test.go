package safety_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer/linetest"
)

// Gas of an engine is 300 to 600 C; only above 900 C is the figure doubted, and it never refuses.
func TestGasThatIsNotLikely(t *testing.T) {
	for _, celsius := range []float64{600, 890} {
		assert.NotContains(t, find(t, linetest.DryLine(0.3, 0.05), linetest.Exhaust(0.12, celsius), nil), "GAS-VERY-HOT")
	}
	found := find(t, linetest.DryLine(0.3, 0.05), linetest.Exhaust(0.12, 910), nil)
	assert.Contains(t, found, "GAS-VERY-HOT")
	assert.False(t, found["GAS-VERY-HOT"].Refuse)
}
