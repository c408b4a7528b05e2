package boatfile

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/source"
)

// Days at sea as the file with every key states them, and what is taken where they are silent.
func TestPassagesOfAFile(t *testing.T) {
	b := load(t, "everything")
	require.Len(t, b.Passages, 2)
	v := b.Passages[0]
	assert.Equal(t, path.Watch{On: 4, Off: 8, At: "helm", Rest: "aft deck"}, v.Watch)
	assert.InDelta(t, 1700, v.FuelPrice, 1e-9)
	assert.Equal(t, 4.0, v.Times)
	require.Len(t, v.Legs, 4)
	assert.Equal(t, path.Leg{Engines: []string{"main"}, Speed: 1700, Power: 80e3, Hours: 8, Over: 8 * 1852.0 / 3600}, v.Legs[0])
	assert.Equal(t, []string{"main", "set"}, v.Legs[2].Engines)
	assert.Equal(t, []string{"set"}, v.Legs[3].Engines)
	short := b.Passages[1]
	assert.Empty(t, short.Legs)
	assert.InDelta(t, 1600, short.FuelPrice, 1e-9, "that of the one passage")
	assert.Equal(t, path.Watch{On: 4, Off: 4}, short.Watch, "likewise")
	said := 0
	for _, a := range b.Assumptions {
		if a.Field == "passages.by test cycle legs" {
			said++
		}
	}
	assert.Equal(t, 1, said)
	e, _ := b.Layouts[0].Engine("main")
	assert.Equal(t, path.Propeller{Blades: 4, Gear: 2.5}, e.Propeller)
}

// A propeller's exponent stands behind its load law.
func TestLoadWithAnExponent(t *testing.T) {
	n, _ := decode.Parse([]byte("load: propeller 2.5\n"))
	r := &reader{}
	var e path.Engine
	r.load(r.Object(n, "engines.main"), &e)
	require.Empty(t, r.Problems)
	assert.Equal(t, source.Propeller, e.Load)
	assert.Equal(t, 2.5, e.Exponent)
	for _, bad := range []string{"propeller fast", "propeller 1.5", "propeller 4", "propeller NaN", "propellor"} {
		n, _ := decode.Parse([]byte("load: " + bad + "\n"))
		r := &reader{}
		r.load(r.Object(n, "engines.main"), &path.Engine{})
		assert.Len(t, r.Problems, 1, bad)
		assert.NotEmpty(t, r.Problems[0].Hint, bad)
	}
}

// A speed over ground that few boats make is told with its line; 40 kn is taken as it stands.
func TestFastPassage(t *testing.T) {
	for over, said := range map[string]int{"60 kn": 1, "40 kn": 0, "60 km/h": 0} {
		n, err := decode.Parse([]byte("legs: [{hours: 3 h, over_ground: " + over + "}]\n"))
		require.Nil(t, err)
		r := &reader{}
		o := r.Object(n, "passages.dash")
		r.leg(r.List(o.Get("legs"), "legs", 1, mostLegs)[0], "passages.dash legs[1]", 1, &path.Boat{})
		require.Empty(t, r.Problems)
		require.Len(t, r.Warnings, said, over)
		if said > 0 {
			assert.Equal(t, `line 1: passages.dash legs[1] over_ground: "60 kn" is faster than nearly any boat; was another unit meant, such as km/h?`, r.Warnings[0])
		}
	}
}
