package interview

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestBarsOfNormalDoubtsAreJoined(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		plain, guessed := rapid.Float64Range(0.1, 30).Draw(r, "plain"), rapid.Float64Range(0, 30).Draw(r, "guessed")
		err := rapid.Float64Range(0.1, 30).Draw(r, "error of the reading")
		read := 1 / math.Hypot(1/plain, 1/err)
		assert.InEpsilon(r, math.Hypot(plain, guessed), bar{plain, plain, guessed}.left(), 1e-9, "no reading: the root of squares")
		assert.InEpsilon(r, read, bar{plain, read, 0}.left(), 1e-9, "no guess: the draws alone")
		assert.InEpsilon(r, 1/math.Hypot(1/math.Hypot(plain, guessed), 1/err), bar{plain, read, guessed}.left(), 1e-6, "Bayes for normal distributions")
	})
	assert.InDelta(t, 3, bar{0, 0, 3}.left(), 1e-12, "no band at all")
	assert.InDelta(t, math.Hypot(4, 3), bar{4, 5, 3}.left(), 1e-12, "draws that a reading widens give it no weight")
}
