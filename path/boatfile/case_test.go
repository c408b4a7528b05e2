package boatfile

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/decode"
)

const smallCase = `
case: {id: small, title: a small boat, group: dry stack, source: an invented log, sets_constant: no}
duties:
  idle: {speed: 800 rpm, power: 1 kW}
assumed:
  - {field: boat.engines.main.rated.power, from: 30 kW, to: 50 kW}
  - {field: [boat.spaces.hold.lining], one_of: [bare steel, 25 mm foam]}
  - {field: boat.partitions.lid.open_area, from: 0 m2, to: 0.02 m2}
  - {field: boat.layouts.dry.exhausts.main.line.can.chamber.bore, from: 200 mm, to: 300 mm}
  - {field: duties.idle.power, from: 1 kW, to: 3 kW}
rows:
  - {id: aft, listener: aft, measured: 71 dBA}
  - {id: range, listener: aft, duty: idle, measured: [60 dBA, 63 dBA], sets_constant: an invented one}
  - {id: most, group: generator, listener: aft, at_most: 75 dBC}
  - {id: least, listener: aft, at_least: 60 dBA}
  - {id: fall, listener: far, less: {listener: aft}, measured: -12 dB}
  - {id: power, sound_power: exhaust, measured: 110 dBA, bands: [60, 70, 80, 90, 100, 105, 103, 98, 90]}
boat:
  engines:
    main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, in: hold, at: [2 m, 0 m, 0 m]}
  spaces:
    hold: {at: [0 m, -1 m, -1 m], size: [3 m, 2 m, 1.5 m], lining: bare steel}
  partitions:
    - {between: [hold, outside], name: lid, at: [2 m, 0 m, 0.5 m], facing: up, area: 1 m2, build_up: [12 mm plywood], open_area: 0.01 m2}
  listeners:
    aft: {in: outside, at: [-2 m, 0 m, 1.5 m]}
    far: {in: outside, at: [-10 m, 0 m, 1.5 m]}
  layouts:
    - name: dry
      exhausts:
        main:
          line:
            - pipe: {bore: 60 mm, length: 1 m}
            - chamber: {name: can, bore: 250 mm, length: 600 mm, inlet_bore: 60 mm, outlet_bore: 60 mm}
          outlet: {at: [0 m, 0 m, 1 m], pointing: aft}
`

func small(t *testing.T) *Case {
	t.Helper()
	c, err := LoadCase("small.yaml", []byte(smallCase))
	require.NoError(t, err)
	return c
}

func TestCaseRows(t *testing.T) {
	c := small(t)
	require.Len(t, c.Rows, 6)
	aft, rng, most, least, fall, power := c.Rows[0], c.Rows[1], c.Rows[2], c.Rows[3], c.Rows[4], c.Rows[5]
	assert.Equal(t, []float64{71, 71}, []float64{*aft.Low, *aft.High})
	assert.Equal(t, "dry stack", aft.Group)
	assert.Empty(t, aft.SetsConstant)
	assert.Equal(t, []float64{60, 63}, []float64{*rng.Low, *rng.High})
	assert.Equal(t, "an invented one", rng.SetsConstant)
	assert.Equal(t, "aft, idle", rng.Seat.String())
	assert.Nil(t, most.Low)
	assert.Equal(t, "C", most.Weighting)
	assert.Equal(t, "generator", most.Group)
	assert.Nil(t, least.High)
	assert.Equal(t, "aft", fall.Less.Listener)
	assert.InDelta(t, -12, *fall.Low, 0)
	assert.Equal(t, "exhaust", power.Seat.SoundPower)
	assert.InDelta(t, 105, power.Bands[5], 0)
	assert.InDelta(t, 800, c.Duties["idle"].RunSpeed, 0)
}

// A draw moves what it names and nothing else; shares 0 and 1 are the ends of the spans.
func TestCaseDraw(t *testing.T) {
	c := small(t)
	at := func(u ...float64) *Case {
		d, err := c.Draw(u)
		require.NoError(t, err)
		return d
	}
	low, high, stated := at(0, 0, 0, 0, 0), at(1, 1, 1, 1, 1), at()
	assert.InDelta(t, 30e3, low.Boat.Layouts[0].Engines[0].Rated.Power, 1e-6)
	assert.InDelta(t, 50e3, high.Boat.Layouts[0].Engines[0].Rated.Power, 1e-6)
	assert.InDelta(t, 40e3, stated.Boat.Layouts[0].Engines[0].Rated.Power, 1e-6)
	assert.Equal(t, "bare steel", low.Boat.Layouts[0].Spaces[0].Lining)
	assert.Equal(t, "25 mm foam", high.Boat.Layouts[0].Spaces[0].Lining)
	assert.InDelta(t, 0.005, at(0.5, 0.5, 0.25).Boat.Layouts[0].Partitions[0].OpenArea, 1e-12)
	assert.InDelta(t, 3e3, high.Duties["idle"].RunPower, 1e-6)
	assert.Equal(t, stated.Boat.Layouts[0].Exhausts, c.Boat.Layouts[0].Exhausts, "no share leaves the file's values")
	assert.NotEqual(t, low.Boat.Layouts[0].Exhausts, high.Boat.Layouts[0].Exhausts)
}

// Every command takes the boat of a case.
func TestLoadGivesTheBoatOfACase(t *testing.T) {
	b, err := Load("small.yaml", []byte(smallCase))
	require.NoError(t, err)
	assert.Len(t, b.Listeners, 2)
	_, err = LoadCase("boat.yaml", []byte("boat: no case\n"))
	require.ErrorContains(t, err, "no measured case")
}

// What is wrong in a case is said with its line and what would be right.
func TestBrokenCases(t *testing.T) {
	for want, change := range map[string][2]string{
		`no "enginess" there; there are`:                 {"boat.engines.main", "boat.enginess.main"},
		`did you mean "engines"?`:                        {"boat.engines.main", "boat.enginess.main"},
		`from is in "kW", to in "hp"`:                    {"to: 50 kW", "to: 50 hp"},
		"is empty":                                       {"from: 30 kW", "from: 60 kW"},
		"is a mapping":                                   {"boat.engines.main.rated.power", "boat.engines.main.rated"},
		`"60 mm" can't be`:                               {"from: 200 mm", "from: 60 mm"},
		"needs from and to, or one_of":                   {"one_of: [bare steel, 25 mm foam]", "from: 1 m"},
		`"25 mm stuff" can't be`:                         {"25 mm foam]", "25 mm stuff]"},
		"needs one of measured, at_most, at_least":       {"measured: 71 dBA", "measured: 71 dBA, at_most: 80 dBA"},
		"write 71 dBA if it is dB(A)":                    {"measured: 71 dBA", "measured: 71 dB"},
		"the range ends below its beginning":             {"[60 dBA, 63 dBA]", "[63 dBA, 60 dBA]"},
		"duplicate row id":                               {"id: range", "id: aft"},
		`rows[1] listener: no "aff"`:                     {"listener: aft, measured", "listener: aff, measured"},
		`no "idel"; there are idle`:                      {"duty: idle", "duty: idel"},
		"names no place":                                 {"sound_power: exhaust, ", ""},
		`"boats" is not known; allowed: wet open`:        {"group: dry stack", "group: boats"},
		"a case is predicted without its readings":       {"boat:\n  engines", "boat:\n  readings: []\n  engines"},
		`case lacks "source"`:                            {"source: an invented log, ", ""},
		`duties.idle: no engine "second" is in the file`: {"{speed: 800 rpm", "{engine: second, speed: 800 rpm"},
		`unknown key "row"`:                              {"duties:", "row: []\nduties:"},
	} {
		text := strings.Replace(smallCase, change[0], change[1], 1)
		require.NotEqual(t, smallCase, text, want)
		_, err := LoadCase("small.yaml", []byte(text))
		var wrong *decode.Errors
		require.True(t, errors.As(err, &wrong), want)
		assert.Contains(t, err.Error(), want)
		assert.Positive(t, wrong.Problems[0].Line, want)
	}
}

// Each file of the record is a good boat file, and its spans are possible.
func TestRecordFilesAreGood(t *testing.T) {
	files, err := filepath.Glob(data + "measured/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		c, err := LoadCase(f, text)
		require.NoError(t, err, f)
		assert.Equal(t, strings.TrimSuffix(filepath.Base(f), ".yaml"), c.ID, "a case goes by the name of its file")
	}
}
