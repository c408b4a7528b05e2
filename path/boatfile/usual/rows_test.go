package usual

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/panel"
	"hushwake/source/said"
)

// The usual walls and their doubts as they were judged, in the order of path.Kinds: hull, deck, house, bulkhead, joinery, sole, trunk.
func TestUsualWallsAsJudged(t *testing.T) {
	rows, err := usualWalls()
	require.NoError(t, err)
	for hull, want := range map[string]string{
		"steel":     "5 mm steel ±6; 3 mm steel ±6; 3 mm aluminium ±6; 12 mm plywood ±8; 12 mm plywood ±8; 15 mm plywood ±8; 3 mm GRP ±8",
		"aluminium": "5 mm aluminium ±6; 4 mm aluminium ±6; 3 mm aluminium ±6; 12 mm plywood ±8; 12 mm plywood ±8; 15 mm plywood ±8; 3 mm GRP ±8",
		"grp":       "6 mm GRP ±6; 12 mm plywood ±6; 5 mm GRP ±6; 12 mm plywood ±8; 12 mm plywood ±8; 15 mm plywood ±8; 3 mm GRP ±8",
		"wood":      "20 mm timber ±6; 15 mm plywood ±6; 12 mm plywood ±6; 12 mm plywood ±8; 12 mm plywood ±8; 15 mm plywood ±8; 3 mm GRP ±8",
		"unstated":  "20 mm timber ±8; 12 mm plywood ±8; 12 mm plywood ±8; 12 mm plywood ±8; 12 mm plywood ±8; 12 mm plywood ±8; 3 mm GRP ±8",
	} {
		var all []string
		for _, kind := range path.Kinds {
			w := rows[[2]string{hull, kind}]
			all = append(all, fmt.Sprintf("%s ±%g", said.Plain(w.Text), w.Usual.SD))
		}
		assert.Equal(t, want, strings.Join(all, "; "), hull)
	}
}

// Every kind of wall has a row for every hull, no heavier where the hull is not stated.
func TestUsualWalls(t *testing.T) {
	rows, err := usualWalls()
	require.NoError(t, err)
	m := panel.Default()
	for _, kind := range path.Kinds {
		mean := func(w Wall) (sum float64) { // 125 Hz to 2 kHz
			r := m.TransmissionLoss(w.BuildUp)
			for _, v := range r.Bands[2:7] {
				sum += v / 5
			}
			return sum
		}
		least := mean(rows[[2]string{"unstated", kind}])
		for _, hull := range []string{"steel", "aluminium", "grp", "wood", "unstated"} {
			w, ok := rows[[2]string{hull, kind}]
			require.True(t, ok, "%s of %s", kind, hull)
			assert.GreaterOrEqual(t, w.Usual.SD, 6.0)
			assert.GreaterOrEqual(t, mean(w), least-0.1, "%s of %s", kind, hull)
		}
	}
	require.Len(t, rows, 5*len(path.Kinds))
}
