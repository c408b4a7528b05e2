package form

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A scale of 20 letters from 50 to 88 dB has a letter every 2 dB, so that each sign can be counted by hand.
func TestBarsStandOnTheirScale(t *testing.T) {
	b, limit := Bar{50, 88}, 80.0
	assert.Equal(t, "50················88", b.Head())
	assert.Equal(t, []rune("··──●───·······┊····"), []rune(b.Draw(54, 58, 64, &limit)))
	assert.Equal(t, "●···················", b.Draw(50, 50, 50, nil))
	assert.Equal(t, "───────────────────●", b.Draw(-400, 95, 95, nil), "what lies outside stands at the end")
	assert.NotContains(t, b.Draw(54, math.NaN(), 64, nil), "●", "a layout to be asked about has no level")
}

// A louder level never stands further left, and a bar is always as wide as its scale.
func TestBarsAreInOrder(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := Bar{rapid.Float64Range(0, 60).Draw(r, "low"), rapid.Float64Range(70, 140).Draw(r, "high")}
		v := rapid.SliceOfN(rapid.Float64Range(-20, 160), 2, 2).Draw(r, "levels")
		at := func(v float64) int {
			return strings.IndexRune(strings.ReplaceAll(b.Draw(v, v, v, nil), "·", "."), '●')
		}
		require.Equal(r, barWidth, len([]rune(b.Draw(v[0], v[0], v[1], &v[1]))))
		if v[0] <= v[1] {
			require.LessOrEqual(r, at(v[0]), at(v[1]))
		}
	})
}
