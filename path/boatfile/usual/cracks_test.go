package usual

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
)

// Walls in one face have one crack, 2 cm2 in each m2 (as judged), all of it open; a wall that states its gaps has none. One boat in
// ten lies over 10 lg(1.8 %/0.02 %) = 19.5 dB, 1.2816 standard deviations.
func TestCracksOfAFaceAreOne(t *testing.T) {
	wall := func(name string, area float64, cracks bool, between ...string) path.Partition {
		return path.Partition{Name: name, Between: [2]string(between), Facing: "up", Area: area, Cracks: cracks}
	}
	all := Cracks([]path.Partition{wall("a", 6, true, "cabin", "outside"), wall("b", 4, true, "outside", "cabin"), wall("c", 9, false, "cabin", "outside"), wall("d", 0, true, "cabin", "hold")})
	require.Len(t, all, 1)
	assert.InDelta(t, 20e-4, all[0].Area, 1e-9)
	assert.InDelta(t, all[0].Area, all[0].OpenArea, 0)
	assert.Equal(t, path.Crack, all[0].Usual.Kind)
	assert.InDelta(t, 10*math.Log10(90)/1.2816, all[0].Usual.SD, 1e-9)
}
