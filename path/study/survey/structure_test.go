package survey

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws/drawstest"
)

// A survey lists what parts structure from air where it counts at the seat, with what the answer would mean, and the
// mount's reading with the drop to expect; where the air rules it lists neither.
func TestSurveyPlansTheStructure(t *testing.T) {
	_, p := drawstest.Load(t, drawstest.BorneBoat, "{listener: bunk, layout: dry, level: 60 dBA}")
	m := model(t, []path.Prediction{p})
	plan, err := Make(m, []path.Prediction{p}, drawn(t, m), Options{Listener: "bunk"})
	require.NoError(t, err)
	found := map[string]Planned{}
	for _, r := range plan.Readings {
		for _, w := range []string{"loudspeaker", "accelerometer"} {
			if strings.Contains(r.What, w) {
				found[w] = r
			}
		}
	}
	require.Len(t, found, 2)
	require.Contains(t, found["loudspeaker"].How, "comes through mounts and hull")
	require.Contains(t, found["accelerometer"].How, "the mount is bridged")
	require.Regexp(t, `expects \d+ dB between`, found["accelerometer"].How)
	require.Less(t, found["loudspeaker"].After, found["loudspeaker"].Before-0.2)
	require.Less(t, found["loudspeaker"].After, found["accelerometer"].After, "it sees the whole way, the phone on the mount only one part")
	all := drawstest.Boat(1, 0)
	n := model(t, all)
	plan, err = Make(n, all, drawn(t, n), Options{Listener: "helm"})
	require.NoError(t, err)
	for _, r := range plan.Readings {
		require.NotContains(t, r.What, "loudspeaker")
	}
}
