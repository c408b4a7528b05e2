package interview

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestBarsOfNormalDoubtsAreJoined(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		wide, narrow := rapid.Float64Range(1, 30).Draw(r, "wide"), rapid.Float64Range(0.1, 1).Draw(r, "share")
		narrow *= wide
		err := rapid.Float64Range(0.1, 30).Draw(r, "error of the reading")
		read := 1 / math.Hypot(1/wide, 1/err)
		assert.InEpsilon(r, narrow, bar{wide, wide}.left(narrow), 1e-9, "no reading: the draws alone")
		assert.InEpsilon(r, read, bar{wide, read}.left(wide), 1e-6, "no answer: the reading alone")
		assert.InEpsilon(r, 1/math.Hypot(1/narrow, 1/err), bar{wide, read}.left(narrow), 1e-6, "Bayes for normal distributions")
	})
	assert.Zero(t, bar{0, 0}.left(3), "no band at all")
	assert.InDelta(t, 3, bar{4, 5}.left(3), 1e-12, "draws that a reading widens give it no weight")
}
