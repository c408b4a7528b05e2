package readings

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/source/spectrum"
)

func generatorBox(t *testing.T) *path.Boat {
	t.Helper()
	b, err := boatfile.LoadFile("../../../testdata/generator-box.yaml")
	require.NoError(t, err)
	return b
}

// A quick look at layouts that are as they were gives the medians of all draws; one at a layout that is worked out again those
// too, for what few draws miss is put right; one that is louder by 3 dB moves by them.
func TestEdited(t *testing.T) {
	b := generatorBox(t)
	k, err := Know(b, Options{})
	require.NoError(t, err)
	spread := k.Spread()
	same := make([]int, len(k.Central))
	for i := range same {
		same[i] = i
	}
	as, err := k.Edited(b, k.Central, same)
	require.NoError(t, err)
	assert.Equal(t, QuickDraws, as.Draws.Draws.N)
	assert.Equal(t, k.Used(), as.Used())
	same[0] = -1
	anew, err := k.Edited(b, k.Central, same)
	require.NoError(t, err)
	louder := append([]path.Prediction(nil), k.Central...)
	louder[0].Listeners = append([]path.Heard(nil), louder[0].Listeners...)
	for j := range louder[0].Listeners {
		louder[0].Listeners[j].Move(func(path.Route) (by spectrum.Bands) {
			for i := range by {
				by[i] = 3
			}
			return by
		})
	}
	up, err := k.Edited(b, louder, same)
	require.NoError(t, err)
	for i, l := range spread.Layouts {
		for j, h := range l.Listeners {
			assert.InDelta(t, h.Level, as.Spread().Layouts[i].Listeners[j].Level, 1e-9)
			assert.InDelta(t, h.Level, anew.Spread().Layouts[i].Listeners[j].Level, 1e-4)
			more := 0.0
			if i == 0 {
				more = 3
			}
			assert.InDelta(t, h.Level+more, up.Spread().Layouts[i].Listeners[j].Level, 1e-3)
			assert.InDelta(t, up.Spread().Layouts[i].Listeners[j].Level, up.Predictions[i].Listeners[j].DBA(), 0.02, "the prediction stands at the middle")
		}
	}
	before := k.Spread()
	assert.Equal(t, spread, before, "what is known stays as it is")
	_, err = k.Edited(b, []path.Prediction{{Layout: b.Layouts[0], Listeners: []path.Heard{{Routes: []path.Route{{Steps: []path.Step{{Uncertain: []path.Uncertain{{SD: spectrum.Bands{-1}}}}}}}}}}}, []int{-1})
	assert.Error(t, err, "a deviation below zero")
}
