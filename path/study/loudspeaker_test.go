package study

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/source/spectrum"
)

// borneBoat is a boat with a bulkhead small and good enough that mounts and hull rule at the seat. Invented.
const borneBoat = `boat: "engine behind a small and heavy bulkhead (invented)"
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

func borne(t *testing.T, reading string) (*path.Boat, path.Prediction, *Model) {
	return load(t, borneBoat, reading)
}

func load(t *testing.T, file, reading string) (*path.Boat, path.Prediction, *Model) {
	b, err := boatfile.Load("borne.yaml", []byte(strings.Replace(file, "READING", reading, 1)))
	require.NoError(t, err)
	b = b.WithSpaceReadings()
	for _, l := range b.Layouts { // the test's rooms are closed by what it states
		l.Partitions = slices.DeleteFunc(l.Partitions, func(p path.Partition) bool { return p.Usual != nil })
	}
	p, err := path.Predict(b, b.Layouts[0])
	require.NoError(t, err)
	return b, p, model(t, []path.Prediction{p})
}

// A loudspeaker test that finds more through the structure than the model moves mounts, hull and plates up and leaves
// the source where it was: the level in the engine space is in the test itself.
func TestLoudspeakerMovesTheHullAndNotTheSource(t *testing.T) {
	b, p, m := borne(t, "{listener: bunk, layout: dry, level: 60 dBA, loudspeaker: {room: 95 dBA, seat: 35 dBA, running: 98 dBA}}")
	require.Equal(t, "in the engine room", b.Readings[0].Loudspeaker.Listener)
	seat, room := p.Listeners[0], p.Listeners[1]
	structure := spectrum.Bands{}
	for _, r := range seat.Routes {
		if r.Way == path.ByStructure {
			structure = r.Bands
		}
	}
	r := b.Readings[0]
	require.Greater(t, structure.DBA(), seat.DBA()-3, "mounts and hull rule")
	moves := func(up float64) map[string]float64 {
		seatLevel := structure.DBA() + up
		r.Level = &seatLevel
		test := *r.Loudspeaker
		test.Running, test.Room, test.Seat = []float64{room.DBA()}, []float64{95}, []float64{95 - (room.DBA() - (seatLevel - 20))}
		r.Loudspeaker = &test
		l, err := m.configured(r, nil)
		require.NoError(t, err)
		obs, reason, err := m.observeLoudspeaker(r, l)
		require.NoError(t, err)
		require.Empty(t, reason)
		require.Len(t, obs, 1)
		require.InDelta(t, up, obs[0].value-obs[0].model(nil), 0.1, "20 dB under the seat the air takes 0.04 dB")
		obs[0].reading, obs[0].order = 0, "a"
		f := newFit(len(m.Terms), []*observation{&obs[0]})
		require.NoError(t, f.solveRobust())
		out := map[string]float64{}
		for i, term := range m.Terms {
			out[term.Key] = f.x[i]
		}
		return out
	}
	z := moves(8)
	for _, key := range []string{"hull/cabin", "plates/cabin", "mounts/main/rubber", "bridges/main", "feet/main"} {
		require.Greater(t, z[key], 0.15, key)
	}
	require.Less(t, math.Abs(z["casing level/main"]), 0.02, "the source stays")
	require.Less(t, moves(-8)["hull/cabin"], -0.15)
}

// Through calibrate the same reading is used beside the plain level, by octaves too; where the air rules it says so.
func TestLoudspeakerReadingsAreUsed(t *testing.T) {
	for reading, want := range map[string]int{
		"{listener: bunk, layout: dry, level: 60 dBA, loudspeaker: {room: 95 dBA, seat: 35 dBA, running: 98 dBA}}": 2,
		"{listener: bunk, layout: dry, level: 40 dBA, loudspeaker: {room: 95 dBA, seat: 37 dBA, running: 98 dBA}}": 1,
		"{listener: bunk, layout: dry, bands: [70, 68, 62, 50, 50, 50, 50, 45, 40], loudspeaker: {room: [90, 90, 90, 90, 90, 90, 90, 90, 90], " +
			"seat: [60, 50, 40, 30, 30, 30, 30, 30, 60], running: [90, 90, 95, 95, 95, 95, 95, 90, 85]}}": 9 + 8,
	} {
		b, _, m := borne(t, reading)
		c, err := m.Calibrate(b.Readings, func(string, path.Reading) (path.Prediction, error) { return path.Predict(b, b.Layouts[0]) })
		require.NoError(t, err)
		used, reasons := 0, ""
		for _, r := range c.Residuals {
			if r.Predicted != nil {
				used++
			}
			reasons += r.Reason
		}
		require.Equal(t, want, used, reading)
		require.Equal(t, want == 1, strings.Contains(reasons, "the air rules"), reasons)
	}
}

// A survey lists what parts structure from air where it counts at the seat, with what the answer would mean, and the
// mount's reading with the drop to expect; where the air rules it lists neither.
func TestSurveyPlansTheStructure(t *testing.T) {
	_, p, m := borne(t, "{listener: bunk, layout: dry, level: 60 dBA}")
	plan, err := m.Survey([]path.Prediction{p}, m.Prior(), SurveyOptions{Listener: "bunk"})
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
	all := boat(1, 0)
	n := model(t, all)
	plan, err = n.Survey(all, n.Prior(), SurveyOptions{Listener: "helm"})
	require.NoError(t, err)
	for _, r := range plan.Readings {
		require.NotContains(t, r.What, "loudspeaker")
	}
}
