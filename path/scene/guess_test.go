package scene_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/boatfiletest"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
)

// A guess widens the band at every seat by its variance, moves no level of the prediction, and is one cause in all layouts, so that it
// says nothing of the difference between two.
func TestAGuessIsInTheBandAndInNoDifference(t *testing.T) {
	const sd = 4.5
	plain, err := boatfiletest.Adding(t, "dry-stack", "")
	require.NoError(t, err)
	guessed, err := boatfiletest.Adding(t, "dry-stack", "guessed: {rated power: 4.5 dB}")
	require.NoError(t, err)
	model := func(b *path.Boat) (*draws.Model, []path.Prediction) {
		var all []path.Prediction
		for _, l := range b.Layouts[:2] {
			p, err := scene.PredictIn(b, l, path.Fast)
			require.NoError(t, err)
			all = append(all, p)
		}
		m, err := draws.NewModel(all)
		require.NoError(t, err)
		return m, all
	}
	m, was := model(plain)
	g, is := model(guessed)
	require.Len(t, g.Terms, len(m.Terms)+1, "one cause for all layouts, routes and seats")
	for i, l := range m.Layouts {
		for j := range l.Listeners {
			assert.Equal(t, was[i].Listeners[j].DBA(), is[i].Listeners[j].DBA())
			seat := is[i].Listeners[j].Listener.Name
			share := 0.0
			for _, s := range g.Matters(draws.Belief{}, l.Name, seat) {
				if s.Key == "guess/rated power" {
					share = s.SD
				}
			}
			engines := 1 - math.Pow(10, (quietAt(is[i].Listeners[j])-is[i].Listeners[j].DBA())/10)
			assert.InDelta(t, sd*engines, share, 0.01, "%s at %s: all that runs moves with it, the background does not", l.Name, seat)
		}
	}
}

func quietAt(h path.Heard) float64 {
	for _, r := range h.Routes {
		if r.Way == path.ByBackground {
			return r.Bands.DBA()
		}
	}
	return math.Inf(-1)
}
