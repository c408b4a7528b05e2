package boatfile

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/scene"
	"hushwake/source"
)

const boxed = `boat: x
engines: {set: {cycle: four-stroke, cylinders: 3, rated: {power: 9 kW, speed: 1500 rpm}, in: locker, enclosure: box}}
spaces: {locker: {size: [2 m, 2 m, 1.4 m]}}
enclosures: {box: {size: [1.2 m, 0.8 m, 0.8 m], build_up: [12 mm plywood], BOX}}
listeners: {quay: {in: outside, at: [1 m, -9 m, 1.5 m]}}
layouts: [{name: l, exhausts: {set: {line: [{pipe: {bore: 50 mm, length: 2 m}}], outlet: {at: [0 m, 0 m, 0.3 m], pointing: aft}}}}]
`

// What a box can't be is refused where it stands, with what is allowed.
func TestBoxesThatCannotBe(t *testing.T) {
	for text, want := range map[string]string{
		"openings: [{role: inlet, to: lokker}]":                              `no "lokker"; there are locker, outside`,
		"fan: {curve: [[0 m3/s, 50 Pa], [0.1 m3/s, 60 Pa]]}":                 "pressure fall from point to point",
		"fan: {curve: [[0 m3/s, 50 Pa]]}":                                    "curve",
		"fan: {curve: [[0 m3/s, 50 Pa], [0.1 m3/s, 20 Pa]], flow: 0.1 m3/s}": "a curve and a duty point",
		"fan: {curve: [[0 m3/s, 50 Pa], [50 m3/s, 20 Pa]]}":                  "is the unit right",
		"gap: 0.4 m":                                  "leaves no room for an engine",
		"door: {seal_length: 3 m, gap: -1 mm}":        "gap",
		"limit: 5 kg":                                 "limit",
		"own_air_pipe: {bore: 0 mm}":                  "bore",
		"own_air_pipe: {to: lokker}":                  `no "lokker"; there are locker, outside`,
		"openings: [{role: inlet, facing: sideways}]": "sideways",
		"fan: {flow: 0.1 m3/s, sound_power: 72 Pa}":   "sound_power",
		"openings: [{role: outlet, lined_duct: {insertion_loss: {bands: [1, 2, 3]}}}]": "bands",
	} {
		_, err := Load("box.yaml", []byte(strings.Replace(boxed, "BOX", text, 1)))
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), want, text)
	}
}

// What is said of a box arrives.
func TestBoxKeysArrive(t *testing.T) {
	b, err := Load("box.yaml", []byte(strings.Replace(boxed, "BOX", `limit: 50 °C, gap: 80 mm, door: {seal_length: 3.2 m, gap: 0.5 mm}, own_air_pipe: {bore: 60 mm, length: 2 m, bends: 2, to: locker, at: [1 m, 0 m, 1 m], facing: up, insertion_loss: {bands: [0, 1, 2, 3, 4, 5, 6, 7, 9]}},
  fan: {curve: [[0 m3/s, 90 Pa], [0.15 m3/s, 60 Pa]], sound_power: 72 dBA, ignition_protected: yes, running: stopped},
  openings: [{role: outlet, to: outside, at: [1 m, -1 m, 0.5 m], facing: port, area: 200 cm2, lined_duct: {size: [0.2 m, 0.1 m], insertion_loss: {bands: [0, 1, 2, 3, 4, 5, 6, 7, 8]}}}]`, 1)))
	require.NoError(t, err)
	e := b.Layouts[0].Enclosures[0]
	assert.InDelta(t, 323.15, e.Limit, 1e-9)
	assert.InDelta(t, 0.08, e.Gap, 1e-12)
	assert.InDelta(t, 3.2*0.0005, e.Door.Seal*e.Door.Gap, 1e-12)
	assert.True(t, e.OwnAirPipe)
	assert.Equal(t, [2]float64{0.06, 2}, [2]float64{e.AirPipe.Bore, e.AirPipe.Length})
	assert.Equal(t, "locker", e.AirMouth.To)
	assert.True(t, e.AirMouth.AtStated && e.AirMouth.Facing == "up")
	assert.Equal(t, 9.0, e.AirMouth.Duct.Measured[8])
	assert.InDelta(t, math.Pi*0.0009, e.AirMouth.Area, 1e-12)
	require.Len(t, e.Fan.Curve, 2)
	assert.Equal(t, 0.15, e.Fan.Curve[1].Flow)
	assert.True(t, e.Fan.Stopped && e.Fan.IgnitionProof)
	assert.Equal(t, 72.0, e.Fan.SoundPower)
	o := e.Openings[0]
	assert.Equal(t, "outside", o.To)
	assert.True(t, o.AtStated)
	assert.Equal(t, "port", o.Facing)
	assert.Equal(t, 8.0, o.Duct.Measured[8])
}

// Holes that nobody has stated are taken as holes, not as a tight box, and nothing is said of its heat on such a guess; a
// box without any is stated as such.
func TestHolesUnknown(t *testing.T) {
	for text, want := range map[string]struct {
		holes int
		code  string
	}{"lining: bare": {2, "unknown"}, "openings: unknown": {2, "unknown"}, "openings: []": {0, "starved"},
		"openings: [{role: inlet, area: 100 cm2}, {role: outlet, area: 100 cm2}]": {2, "cooked"}} {
		b, err := Load("box.yaml", []byte(strings.Replace(boxed, "BOX", text, 1)))
		require.NoError(t, err)
		l := b.Layouts[0]
		require.Len(t, l.Enclosures[0].Openings, want.holes, text)
		for _, hole := range l.Enclosures[0].Openings {
			assert.InDelta(t, 0.01, hole.Area, 1e-12, text)
		}
		p, err := scene.Predict(b, l)
		require.NoError(t, err)
		assert.Equal(t, want.code, p.Exhausts[0].Box.Air.Verdicts[0].Code, text)
		assert.Equal(t, want.code == "unknown", slices.ContainsFunc(b.Assumptions, func(a source.Assumption) bool {
			return a.Field == "enclosures.box openings" && a.PlusMinusDB == 3
		}), text)
	}
}
