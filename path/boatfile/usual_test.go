package boatfile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path"
)

// crackAreas are the ways beside the walls by the wall that they are called after, m2.
func crackAreas(t *testing.T, b *path.Boat) map[string]float64 {
	out := map[string]float64{}
	for _, p := range b.Layouts[0].Partitions {
		if p.Usual != nil && p.Usual.Kind == path.Crack {
			assert.InDelta(t, 15.25, p.Usual.SD, 0.01, "from 0.02 to 1.8 % open, 19.5 dB, in one boat of ten")
			assert.Equal(t, p.Area, p.OpenArea)
			out[strings.TrimPrefix(p.Name, "cracks of ")] = p.Area
		}
	}
	return out
}

// A forgotten wall has the cracks of a stated one, 2 cm2 in each m2, together with those of its face; the hull has none, nor has what
// lies beside a part that states what is open. By hand: 3.0 by 2.6 m of deck less 2.0 by 2.6 m under the wheelhouse, hatch and all.
func TestForgottenWallsHaveCracks(t *testing.T) {
	b := loaded(t)
	all := crackAreas(t, b)
	assert.InDelta(t, 2e-4*2.6, all["hatch"], 1e-12)
	assert.InDelta(t, 2e-4*5.2, all["engine room roof to wheelhouse, not stated"], 1e-12)
	assert.InDelta(t, 2e-4*2.4*2.6, all["wheelhouse roof, not stated"], 1e-12)
	assert.Contains(t, all, "engine room forward, not stated", "a bulkhead")
	assert.NotContains(t, all, "engine room port, not stated", "the hull")
	all = crackAreas(t, loaded(t, "area: 1 m2,", "area: 1 m2, open_area: 0.01 m2,"))
	assert.NotContains(t, all, "hatch")
	assert.NotContains(t, all, "engine room roof, not stated")
	assert.Contains(t, all, "engine room forward, not stated", "another face")
	all = crackAreas(t, loaded(t, "lining: furnished cabin", "lining: furnished cabin, faces: {port: [6 mm glass]}", "lining: bare steel", "lining: bare steel, faces: {port: [4 mm steel]}"))
	assert.Contains(t, all, "wheelhouse port face")
	assert.NotContains(t, all, "engine room port face", "the hull, stated")
	all = crackAreas(t, loaded(t, "area: 1 m2,", "area: 1 m2, open_area: 0.01 m2,", "lining: bare steel", "lining: bare steel, faces: {roof: [4 mm steel], forward: [4 mm steel]}"))
	assert.NotContains(t, all, "engine room roof face", "no more than a forgotten one")
	assert.Contains(t, all, "engine room forward face")
}

// A trunk is a narrow space over the deck without an engine, and its walls to the open are the lightest.
func TestTrunkWalls(t *testing.T) {
	kind := func(at, size string) string {
		b := loaded(t, "  wheelhouse:", "  trunk: {at: ["+at+"], size: ["+size+"]}\n  wheelhouse:")
		for _, p := range b.Layouts[0].Partitions {
			if p.Name == "trunk port, not stated" {
				return p.Usual.Kind
			}
		}
		return ""
	}
	assert.Equal(t, path.Trunk, kind("5 m, -0.3 m, 1.2 m", "0.79 m, 0.5 m, 2 m"))
	assert.Equal(t, path.HouseSide, kind("5 m, -0.3 m, 1.2 m", "0.5 m, 0.81 m, 2 m"), "one stands in it")
	assert.NotEqual(t, path.Trunk, kind("5 m, -0.3 m, 0.4 m", "0.5 m, 0.5 m, 2 m"), "in the hull")
}

// The smallest usual spaces, by hand: an engine's box, a berth, a locker.
func TestSmallestUsualSpaces(t *testing.T) {
	const engineRoom, wheelhouse = ", size: [3.0 m, 2.6 m, 1.5 m]", ", size: [2.4 m, 2.6 m, 2.0 m]"
	size := func(name string, changes ...string) [3]float64 {
		return findSpace(loaded(t, changes...).Layouts[0].Spaces, name).Size
	}
	assert.Equal(t, [3]float64{1.2, 0.8, 1}, size("engine room", engineRoom, ""))
	assert.Equal(t, [3]float64{2, 1, 1.2}, size("wheelhouse", wheelhouse, ""))
	assert.Equal(t, [3]float64{0.4, 0.4, 1}, size("wheelhouse", wheelhouse, "", "in: wheelhouse, at: [3.0 m", "in: outside, at: [-3.0 m"))
	boxed := size("engine room", engineRoom, "", "in: engine room, at", "in: engine room, enclosure: box, at", "partitions:", "enclosures: {box: {size: [1.5 m, 1 m, 0.9 m]}}\npartitions:")
	assert.InDeltaSlice(t, []float64{1.7, 1.2, 1.1}, boxed[:], 1e-9, "0.1 m on each side of the box")
}

// A wall too large for any boat says no size of the spaces that state none, and counts as a wall of no stated area; one that a stated size
// bears out is believed, and so is one of 25 m2.
func TestWallTooLargeForAnyBoat(t *testing.T) {
	const engineRoom, wheelhouse = ", size: [3.0 m, 2.6 m, 1.5 m]", ", size: [2.4 m, 2.6 m, 2.0 m]"
	with := func(area string, changes ...string) (b *path.Boat, warned bool) {
		b = loaded(t, append(changes, "listeners:", "  - {between: [engine room, wheelhouse], name: sole, area: "+area+", build_up: [18 mm plywood]}\nlisteners:")...)
		return b, strings.Contains(strings.Join(b.Warnings, "\n"), "its area counts as not stated")
	}
	b, warned := with("60 m2", engineRoom, "", wheelhouse, "")
	assert.True(t, warned)
	unknown, quiet := with("unknown", engineRoom, "", wheelhouse, "")
	assert.False(t, quiet)
	assert.Equal(t, unknown.Layouts[0].Spaces, b.Layouts[0].Spaces)
	assert.Equal(t, unknown.Layouts[0].Partitions, b.Layouts[0].Partitions)
	b, warned = with("25 m2", engineRoom, "", wheelhouse, "")
	assert.False(t, warned)
	assert.InDelta(t, 25, areaOf(b, "sole"), 1e-9)
	_, warned = with("25.5 m2", engineRoom, "", wheelhouse, "")
	assert.True(t, warned)
	b, warned = with("27 m2", engineRoom, "", ", size: [2.4 m, 2.6 m, 2.0 m]", ", size: [5 m, 4 m, 2 m]")
	assert.False(t, warned)
	assert.InDelta(t, 27, areaOf(b, "sole"), 1e-9)
}

// A wall that lets through more than any usual one is listed with both figures, 12 mm of plywood with its cracks among them; one that doesn't is not.
func TestBeyondUsualIsListed(t *testing.T) {
	said := func(wall string) string {
		for _, a := range loaded(t, "area: 1 m2, build_up: [4 mm steel]", wall).Assumptions {
			if a.Field == "partitions.hatch lets through" {
				return a.Value
			}
		}
		return ""
	}
	assert.Empty(t, said("area: 1 m2, build_up: [15 mm plywood], open_area: 0 m2"))
	assert.Contains(t, said("area: 1 m2, build_up: [4 mm steel], open_area: 0.013 m2"), "18.5 dB are kept out, of the lightest usual one 19.5 dB", "two figures that differ; 10 lg(1/0.013) is 18.9, less what the steel lets through at 125 Hz")
	const deck = "area: 0.4 m2, build_up: [10 mm acrylic], open_area: 0.001 m2}\n  - {between: [engine room, outside], name: deck, facing: up, build_up: [5 mm steel, 25 mm foam, 12 mm plywood], open_area: 0 m2, "
	assert.Empty(t, said(deck+"area: 1.5 m2"), "1.1 m2 of the 2.6 m2 are left for the usual deck")
	assert.Contains(t, said(deck+"area: 2.6 m2"), "left out, nothing would stand in its place")
	assert.Contains(t, said("area: 1 m2, build_up: [4 mm steel], open_area: 0.1 m2"), "10 dB are kept out, of the lightest usual one 19 dB", "10 lg 10 through a tenth; mass law of 7 kg/m2: 12, 18, 24 dB up to 500 Hz, coincidence above")
}
