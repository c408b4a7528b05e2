package path

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Nothing flanks a plain pipe or a gain; a silencer is capped, never made louder by more than the sum of two equal ways;
// more loss is always less sound.
func TestFlankingAlongThePipe(t *testing.T) {
	assert.Zero(t, Flanked(0))
	assert.InDelta(t, -4, Flanked(-4), 1e-12)
	assert.InDelta(t, 20, Flanked(20), 0.01)
	assert.InDelta(t, 50-10*math.Log10(2), Flanked(50), 1e-4)
	assert.InDelta(t, 50, Flanked(200), 1e-4)
	last := -1.0
	for db := 0.0; db < 90; db++ {
		assert.Greater(t, Flanked(db), last)
		last = Flanked(db)
	}
}

// All losses of a line are capped alike, and the doubt of the way along the pipe acts with its share there.
func TestFlankingOfALine(t *testing.T) {
	a := silencer.Acoustics{InsertionLoss: spectrum.Fill(50), BroadbandLoss: spectrum.Fill(70), LineLoss: []float64{0, 100}}
	a.InsertionLoss[0] = 0
	share := Flank(&a)
	assert.InDelta(t, -3.01, share[4], 0.01)
	assert.InDelta(t, 50, a.BroadbandLoss[4], 0.05)
	assert.InDelta(t, 50, a.LineLoss[1], 1e-3)
	assert.Zero(t, a.LineLoss[0])
	u := FlankingDoubt("main", share)
	assert.InDelta(t, 6*math.Pow(10, -0.301), u.SD[4], 0.01)
	assert.Less(t, u.SD[0], 1e-4)
	assert.Contains(t, FlankingNote(share), "at 63, 125,")
	assert.Empty(t, FlankingNote(spectrum.Fill(-20)))
}
