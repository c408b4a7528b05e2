package scene_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
)

const knownBoat = `boat: "what not knowing costs (invented)"
engines:
  main: {cycle: four-stroke, cylinders: 4, aspiration: natural, rated: {power: 30 kW, speed: 2800 rpm}, in: engine room, at: [2 m, 0 m, 0 m]}
spaces:
  engine room: {at: [1 m, -1 m, -0.5 m], size: [2 m, 2 m, 1.5 m], lining: bare steel}
  cabin: {at: [3 m, -1 m, 0 m], size: [2.5 m, 2 m, 1.9 m], lining: furnished cabin}
partitions:
  - {between: [engine room, cabin], name: bulkhead, area: 3 m2, build_up: [18 mm plywood], open_area: 0.01 m2}
listeners:
  bunk: {in: cabin, at: [4 m, 0 m, 0.8 m]}
layouts:
  - name: one
    exhausts:
      main:
        line: [{pipe: {bore: 63 mm, length: 3 m}}]
        outlet: {at: [0 m, 0.5 m, 0.4 m], pointing: aft}
`

func bandOf(t *testing.T, text string) draws.LevelSpread {
	t.Helper()
	b, err := boatfile.Load("boat.yaml", []byte(text))
	require.NoError(t, err)
	m, err := draws.NewModel([]path.Prediction{predict(t, b, b.Layouts[0])})
	require.NoError(t, err)
	s, err := m.MonteCarlo(draws.Options{N: 4000, Seed: 1})
	require.NoError(t, err)
	return s.Layouts[0].Listeners[0]
}

// A value that is not known is no error, but its price stands in the band.
func TestNotKnowingWidensTheBand(t *testing.T) {
	known := bandOf(t, knownBoat)
	for _, c := range []struct{ stated, unknown string }{
		{"build_up: [18 mm plywood]", "build_up: unknown"},
		{"lining: furnished cabin", "lining: unknown"},
	} {
		doubt := bandOf(t, strings.Replace(knownBoat, c.stated, c.unknown, 1))
		require.Greater(t, doubt.SD, known.SD+0.2, c.unknown)
	}
}
