package boatfile

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plain is a small sound file; the tests below bend one thing in it.
const plain = `boat: "small"
engines:
  main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, in: engine room}
spaces:
  engine room: {at: [1.0 m, -1.3 m, -0.4 m], size: [3.0 m, 2.6 m, 1.5 m], lining: bare steel}
listeners:
  helm: {in: outside, at: [5.0 m, 0 m, 2.4 m]}
layouts:
  - name: dry
    exhausts:
      main:
        line:
          - pipe: {bore: 102 mm, length: 3 m}
        outlet: {at: [4.6 m, 0.3 m, 4.1 m], pointing: up}
`

func TestLineEndingsAndMarks(t *testing.T) {
	for name, text := range map[string]string{
		"plain": plain, "carriage returns": strings.ReplaceAll(plain, "\n", "\r\n"), "byte order mark": "\ufeff" + plain, "end mark": plain + "...\n", "start mark": "---\n" + plain,
	} {
		_, err := Load(name, []byte(text))
		assert.NoError(t, err, name)
	}
}

func TestImpossibleValues(t *testing.T) {
	for _, c := range []struct{ from, to, say string }{
		{"cylinders: 4", "cylinders: 0", "impossible"}, {"cylinders: 4", "cylinders: 2.5", "whole number"}, {"power: 40 kW", "power: 0 kW", "more than zero"},
		{"size: [3.0 m,", "size: [0 m,", "more than zero"}, {"layouts:\n", "heel: -5 deg\nlayouts:\n", "negative"}, {"name: dry", "name: dry\n    price: -5", "negative"},
		{"length: 3 m", "length: 3 m, bends: [{angle: -90 deg}]", "negative"}, {"bore: 102 mm", "bore: 102 m", "too large"}, {"layouts:\n", "layouts: []\nmore:\n", "no layouts"},
		{"listeners:\n  helm:", "listeners: {}\nmore:\n  helm:", "no listeners"}, {"          - pipe: {bore: 102 mm, length: 3 m}", "          []", "no elements"},
		{"in: engine room}", "in: engine room, firing_order: [1, 2]}", "has 2 cylinders; the engine has 4"}, {"in: engine room}", "in: engine room, firing_order: [1, 2, 2, 4]}", "twice"},
		{"in: engine room}", "in: engine room, arrangement: inline, bank_angle: 60 deg}", "no bank angle"}, {"spaces:\n", "spaces:\n  outside: {}\n", "always exists"},
		{"length: 3 m}", "length: 3 m}\n          - perforated: {porosity: 120 %}", "too large"}, {"length: 3 m}", "length: 3 m}\n          - packed: {bore: 102 mm, chamber_bore: 100 mm}", "does not fit"},
		{"length: 3 m}", "length: 3 m}\n          - packed: {bore: 102 mm, chamber_bore: 250 mm, length: 600 mm, packing: part}", "packed from end to end"},
		{"length: 3 m}", "length: 3 m}\n          - hose: {bore: 102 mm, length: 1 m, rise: -2 m}", "more than its length"}, {"length: 3 m}", "length: 3 m}\n          - riser: {rise: 1 m, length: 0.5 m}", "shorter"},
		{"length: 3 m}", "length: 3 m}\n          - side_branch: {bore: 50 mm, length: 400 mm, volume: 3 L}", "both"}, {"length: 3 m}", "length: 3 m, in: sauna}", `no "sauna"`},
		{"length: 3 m}", "length: 3 m}\n          - parallel: {branches: [[pipe: {bore: 50 mm, length: 1 m}]]}", "has 1 entries"}, {"length: 3 m}", "length: 3 m}\n          - one_of: [a, a]", "twice"},
		{"length: 3 m}", "length: 3 m}\n          - chamber: {bore: 300 mm, rooms: [300 mm, 300 mm], joined_by: [{bore: 310 mm}]}", "does not fit"},
		{"length: 3 m}", "length: 3 m}\n          - chamber: {bore: 300 mm, rooms: [300 mm, 300 mm, 300 mm], joined_by: [{bore: 80 mm}]}", "2 baffles, but joined_by has 1"},
		{"length: 3 m}", "length: 3 m}\n          - separator: {bore: 300 mm, drain: {bore: 400 mm}}", "not smaller"}, {"pointing: up}", "pointing: aft, below_waterline: 100 mm}", "above it"},
		{"layouts:\n", "edges: [{from: [1 m, 0 m, 0 m], to: [1 m, 0 m, 0 m]}]\nlayouts:\n", "same place"}, {"layouts:\n", "1: x\nlayouts:\n", `unknown key "1"`}, {"layouts:\n", "? [a]\n: b\nlayouts:\n", "plain word"},
		{"layouts:\n", "readings: [{listener: hlem, level: 80 dBA}]\nlayouts:\n", `did you mean "helm"`}, {"layouts:\n", "readings: [{listener: helm, level: 80 dBA, weighting: C}]\nlayouts:\n", "A-weighted, weighting says C"},
		{"layouts:\n", "readings: [{listener: helm, level: 80 dBA, running: {engine: main, speed: 4000 rpm}}]\nlayouts:\n", "above the rated speed"},
		{"layouts:\n", "enclosures: {box: {size: [1 m, 1 m, 1 m], openings: [{area: 2 m2}]}}\nlayouts:\n", "larger than the largest face"}, {"layouts:\n", "quotes: {A: {diameter: 100 mm, bore: 120 mm}}\nlayouts:\n", "not smaller"},
		{"layouts:\n", "<<: {a: b}\nlayouts:\n", `unknown key "<<"`}, {"layouts:\n", "hatch: [1 m]\nlayouts:\n", "2 fit"}, {"lining: bare steel", "lining: bear steel", `"bare steel"`},
	} {
		require.Contains(t, plain, c.from)
		_, err := Load("bent.yaml", []byte(strings.Replace(plain, c.from, c.to, 1)))
		if assert.Error(t, err, c.to) {
			assert.Contains(t, err.Error(), c.say, c.to)
			assert.Regexp(t, `^bent\.yaml:\d+:\d+: `, err.Error())
		}
	}
}

// A file that multiplies layouts by engines stays quick: sections are bounded.
func TestManyEntriesAreRefused(t *testing.T) {
	var engines, layouts strings.Builder
	for i := range 5000 {
		fmt.Fprintf(&engines, "  e%d: {cylinders: 4}\n", i)
		fmt.Fprintf(&layouts, "  - {name: l%d}\n", i)
	}
	_, err := Load("many", []byte("engines:\n"+engines.String()+"layouts:\n"+layouts.String()))
	assert.ErrorContains(t, err, "engines has 5000 entries; 200 at most")
	assert.ErrorContains(t, err, "layouts has 5000 entries")
}

func TestWordsOfDoubt(t *testing.T) {
	for _, w := range []string{"unknown", "don't know", "Don’t know", "dont know", "?", "~", "null", "", "not known"} {
		_, err := Load("doubt.yaml", []byte(strings.Replace(plain, "lining: bare steel", "lining: "+w, 1)))
		assert.NoError(t, err, w)
	}
}

// A listener or an outlet in the wrong place is possible, so it is a warning with the reason.
func TestPlacesThatLookWrong(t *testing.T) {
	inside := strings.Replace(plain, "at: [4.6 m, 0.3 m, 4.1 m]", "at: [2 m, 0 m, 0.5 m]", 1)
	b, err := Load("p", []byte(inside))
	require.NoError(t, err)
	assert.Contains(t, strings.Join(b.Warnings, "\n"), `lies inside the space "engine room"`)
	away := strings.Replace(plain, "helm: {in: outside", "helm: {in: engine room", 1)
	b, err = Load("p", []byte(away))
	require.NoError(t, err)
	assert.Contains(t, strings.Join(b.Warnings, "\n"), "outside that space")
}

// An aliased line is read once for each place that uses it.
func TestAliases(t *testing.T) {
	b := load(t, "generator-box")
	assert.Len(t, b.Layouts[0].Exhausts[0].Line.Elements, len(b.Layouts[3].Exhausts[0].Line.Elements))
	assert.NotSame(t, b.Layouts[0].Exhausts[0].Line.Elements[0], b.Layouts[3].Exhausts[0].Line.Elements[0])
}
