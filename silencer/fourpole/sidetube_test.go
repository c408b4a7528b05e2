package fourpole

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The two parts of the fit join, fall with the mouth's share of the pipe, and begin at a mouth in a plane.
func TestSideTubeEnd(t *testing.T) {
	assert.InDelta(t, 0.8216/2, SideTubeEnd(1, 1e9), 1e-6)
	assert.InDelta(t, SideTubeEnd(0.04, 0.1000001), SideTubeEnd(0.04, 0.0999999), 1e-5)
	last := 1.0
	for x := 0.05; x < 2; x += 0.05 {
		v := SideTubeEnd(x, 1) / (x / 2)
		assert.LessOrEqual(t, v, last)
		assert.GreaterOrEqual(t, v, 0.0)
		last = v
	}
	assert.InDelta(t, 0.85*0.01, NeckEnd(0.02, 1e9), 1e-9)
	assert.InDelta(t, 0.85*0.01*0.5, NeckEnd(0.02, 0.05), 1e-9)
	assert.Zero(t, NeckEnd(0.02, 0.01))
}
