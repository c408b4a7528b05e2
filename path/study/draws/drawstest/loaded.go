package drawstest

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
)

// BorneBoat is a boat with a bulkhead small and good enough that mounts and hull rule at the seat. Invented.
const BorneBoat = `boat: "engine behind a small and heavy bulkhead (invented)"
hull: {material: grp}
engines:
  main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 2800 rpm}, in: engine room, at: [2 m, 0 m, 0 m], mass: 320 kg,
    mounts: {kind: rubber, deflection: 2.5 mm}, bridges: {shaft: rigid, exhaust: hose, pipes: hose}}
spaces:
  engine room: {at: [1 m, -1 m, -0.4 m], size: [2 m, 2 m, 1.6 m], lining: bare steel}
  cabin: {at: [3 m, -1 m, -0.4 m], size: [2 m, 2 m, 2 m], lining: furnished cabin}
partitions:
  - {between: [engine room, cabin], name: bulkhead, area: 0.8 m2, build_up: [6 mm steel, 100 mm mineral wool, 6 mm steel], open_area: 0 m2}
listeners:
  bunk: {in: cabin, at: [4 m, 0 m, 0.6 m]}
layouts:
  - name: dry
    exhausts:
      main:
        line: [pipe: {bore: 70 mm, length: 2 m, wall: 6 mm, material: mild steel, in: engine room, lagging: {thickness: 50 mm, material: mineral wool}}]
        outlet: {at: [-3 m, 0.4 m, 0.6 m], pointing: aft}
readings:
  - READING
`

// Load predicts the first layout of a file whose word READING stands for the reading.
func Load(t testing.TB, file, reading string) (*path.Boat, path.Prediction) {
	t.Helper()
	b, err := boatfile.Load("borne.yaml", []byte(strings.Replace(file, "READING", reading, 1)))
	require.NoError(t, err)
	b = b.WithSpaceReadings()
	for _, l := range b.Layouts { // the test's rooms are closed by what it states
		l.Partitions = slices.DeleteFunc(l.Partitions, func(p path.Partition) bool { return p.Usual != nil })
	}
	p, err := scene.Predict(b, b.Layouts[0])
	require.NoError(t, err)
	return b, p
}
