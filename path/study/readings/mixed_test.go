package readings_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

const oneLine = `
  - name: NAME
    exhausts:
      main:
        line:
          - pipe: {bore: 60 mm, length: PIPE, wall: 3 mm, in: outside MORE}
          - chamber: {bore: 250 mm, rooms: [ROOM], inlet_bore: 60 mm, outlet_bore: 60 mm, wall: 2 mm, in: outside}
          - pipe: {bore: 60 mm, length: 1 m, wall: 3 mm, in: outside}
        outlet: {at: [0 m, 0 m, 0.5 m], pointing: aft}`

func line(name, pipe, room, more string) string {
	return strings.NewReplacer("NAME", name, "PIPE", pipe, "ROOM", room, "MORE", more).Replace(oneLine)
}

// One reading on a line moves the same line with names and a price, a line 1 mm longer and one with a
// chamber 1 mm longer as it moves the line itself (before: 75.2 against 76.5 dB(A)); a chamber of half the
// length keeps a doubt of its own.
func TestOneReadingMovesNearEqualLinesAlike(t *testing.T) {
	b, err := boatfile.Load("lines.yaml", []byte(`
boat: one engine, one listener
engines:
  main: {cycle: four-stroke, cylinders: 4, aspiration: natural, rated: {power: 40 kW, speed: 2600 rpm}, running: {power: 20 kW, speed: 2000 rpm}, in: engine space, at: [2 m, 0 m, 0.5 m]}
spaces:
  engine space: {at: [0.5 m, -1.5 m, 0 m], size: [3 m, 3 m, 2 m], lining: bare steel}
listeners:
  shore: {in: outside, at: [-10 m, 0 m, 1 m]}
readings:
  - {listener: shore, layout: A, level: 75 dBA, plus_minus: 1 dB}
layouts:`+line("A", "1 m", "500 mm", "")+line("A named", "1 m", "500 mm", ", name: first, price: 20, lagging: none")+
		line("A longer", "1001 mm", "500 mm", "")+line("chamber longer", "1 m", "501 mm", "")+line("half", "1 m", "250 mm", "")+"\n"))
	require.NoError(t, err)
	var all []path.Prediction
	for _, l := range b.Layouts {
		p, err := scene.Predict(b, l)
		require.NoError(t, err)
		all = append(all, p)
	}
	m, err := draws.NewModel(all)
	require.NoError(t, err)
	e, err := m.Draw(draws.Options{})
	require.NoError(t, err)
	c, err := readings.Calibrate(m, e, b.Readings, nil)
	require.NoError(t, err)
	moved, sd := map[string]float64{}, map[string]float64{}
	before := m.Spread(e)
	for i, l := range m.Spread(c.Draws).Layouts {
		moved[l.Name], sd[l.Name] = l.Listeners[0].Level-before.Layouts[i].Listeners[0].Level, l.Listeners[0].SD
	}
	assert.Less(t, moved["A"], -5.0)
	for _, same := range []string{"A named", "A longer", "chamber longer"} {
		assert.InDelta(t, moved["A"], moved[same], 0.05, same)
		assert.InDelta(t, sd["A"], sd[same], 0.05, same)
	}
	assert.Greater(t, sd["half"], sd["A"]+0.5)
	// alone at the shore the line moves by the mean over the energy of what each band is in doubt
	models, sum, level := 0, 0.0, all[0].Listeners[0].DBA()
	for _, r := range all[0].Listeners[0].Routes {
		for _, s := range r.Steps {
			for _, u := range s.Uncertain {
				for b, v := range r.Weighted() {
					if strings.Contains(u.Key, "chamber, rooms") {
						sum += u.SD[b] * spectrum.Power(v-level)
					}
				}
			}
		}
	}
	for _, s := range m.Matters(e.Belief(m), "A", "shore") {
		if s.Name == "element model" && strings.Contains(s.Key, "chamber, rooms") {
			models++
			assert.InDelta(t, sum, s.SD, 1e-6, "one row of explain for all parts of a cause")
		}
	}
	assert.Equal(t, 1, models)
	assert.Greater(t, sum, 2.0, "two to five decibels by band")
}
