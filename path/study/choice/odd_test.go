package choice

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/path/study/sizing"
)

// The search takes no choice for one that keeps the back-pressure limit by an odd reading alone, as no prediction does.
func TestSearchTakesNoOddPressureForGood(t *testing.T) {
	b, err := boatfile.LoadFile("../../../testdata/everything.yaml")
	require.NoError(t, err)
	k, err := readings.Know(b, readings.Options{Options: draws.Options{N: 100}})
	require.NoError(t, err)
	require.Less(t, k.Predictions[0].Exhausts[0].Rated.BackPressure, k.Central[0].Exhausts[0].Rated.BackPressure)
	for engine, f := range newScorer(k, k.Central[0].Layout, sizing.Budget{}).factor {
		assert.GreaterOrEqual(t, f, 1.0, engine)
	}
}
