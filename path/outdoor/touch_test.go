package outdoor

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A line that touches a roof has nothing left of the share that is clear of everything, in any band; a metre over
// it the highest bands are clear. So the share and the way over the edge join without a step.
func TestTouchingLineIsNotClear(t *testing.T) {
	roof := []Box{BoxAt("house", Point{-1, -3, 0}, Point{2, 6, 2})}
	at := func(height float64) []float64 {
		v := look(Point{-10, 0, height}, Point{10, 0, height}, nil, roof)
		share := v.clear(GroundInside)
		return share[:]
	}
	for b, share := range at(2 + 1e-9) {
		assert.InDelta(t, 0, share, 0.01, "band %d", b)
	}
	high := at(3)
	assert.Greater(t, high[8], 0.9)
	for b := 1; b < len(high); b++ {
		assert.GreaterOrEqual(t, high[b]+1e-9, high[b-1], "shorter waves are clear sooner")
	}
}
