package sizing

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A long front is thinned to one choice in each slice of back pressure, the quietest of it; both ends stay.
func TestThinnedFrontKeepsTheQuietestOfEachSlice(t *testing.T) {
	var all []trial
	for i := range 10 * frontSize {
		all = append(all, trial{out: Outcome{Level: 60 + float64(i), Pressure: 9000 - 10*float64(i)}})
	}
	kept := thinned(all)
	require.Len(t, kept, frontSize)
	require.Equal(t, 60.0, kept[0].out.Level)
	for i := 1; i < len(kept); i++ {
		require.Greater(t, kept[i].out.Level, kept[i-1].out.Level)
		require.Less(t, kept[i].out.Pressure, kept[i-1].out.Pressure)
	}
	require.Len(t, thinned(all[:frontSize]), frontSize, "a short one stays whole")
}
