package boatfile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
)

// An engine may turn over without load: the propeller law is not put in its place.
func TestRunningWithoutLoad(t *testing.T) {
	text := `boat: idle
engines:
  main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, running: {power: 0 kW, speed: 1500 rpm}}
listeners:
  helm: {in: outside, at: [5 m, 0 m, 2 m]}
layouts:
  - name: dry
    exhausts:
      main:
        line: [{pipe: {bore: 60 mm, length: 2 m}}]
        outlet: {at: [0 m, 0 m, 1 m], pointing: aft}
`
	b, err := boatfile.Load("idle.yaml", []byte(text))
	require.NoError(t, err)
	e := b.Layouts[0].Engines[0]
	duty, _ := e.RunningDuty()
	assert.Less(t, e.LoadFraction(duty), 1e-3)
	assert.Equal(t, 1500.0, e.Running.Speed)
	_, err = boatfile.Load("idle.yaml", []byte(strings.Replace(text, "power: 0 kW", "power: -1 kW", 1)))
	assert.ErrorContains(t, err, "hint:")
}
