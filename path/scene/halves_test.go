package scene_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/source/spectrum"
	"hushwake/testdata/turns"
)

// halved writes partition i as two halves.
func halved(l *path.Layout, i int) *path.Layout {
	return with(l, func(all []path.Partition) []path.Partition {
		all[i].Area, all[i].OpenArea = all[i].Area/2, all[i].OpenArea/2
		return append(all, all[i])
	})
}

// sameLevels compares two predictions of one boat.
func sameLevels(t require.TestingT, a, b path.Prediction, tolerance float64, what string) {
	for i := range a.Listeners {
		require.InDelta(t, a.Listeners[i].DBA(), b.Listeners[i].DBA(), tolerance, "%s at %s", what, a.Listeners[i].Listener.Name)
		for k := range a.Listeners[i].Bands {
			if a.Listeners[i].Bands[k] > 0 {
				require.InDelta(t, a.Listeners[i].Bands[k], b.Listeners[i].Bands[k], tolerance, "%s at %s, band %d", what, a.Listeners[i].Listener.Name, k)
			}
		}
	}
}

// A partition written as two halves is the same wall: no level moves by 0.05 dB, of four walls at once not either. A run takes
// a third of them.
func TestTwoHalvesOfAWall(t *testing.T) {
	all, taken := 0, slices.Collect(turns.Of(t, 1000, 3))
	for _, b := range houseBoats(t) {
		l := b.Layouts[0]
		whole, err := scene.PredictIn(b, l, path.Fast)
		require.NoError(t, err)
		for from := 0; from < len(l.Partitions); from += 4 {
			if all++; !slices.Contains(taken, all) {
				continue
			}
			halves, names := l, ""
			for i := from; i < min(from+4, len(l.Partitions)); i++ {
				halves, names = halved(halves, i), names+l.Partitions[i].Name+"; "
			}
			sameLevels(t, whole, quick(t, b, halves), 0.05, names)
		}
	}
	fewer(t, "6", "12", func(t *rapid.T) {
		b := drawnBoat(t)
		l := b.Layouts[0]
		if len(l.Partitions) == 0 {
			t.Skip("no wall")
		}
		whole, err := scene.PredictIn(b, l, path.Fast)
		if err != nil {
			t.Skip("refused")
		}
		i := rapid.IntRange(0, len(l.Partitions)-1).Draw(t, "wall")
		parts, err := scene.PredictIn(b, halved(l, i), path.Fast)
		require.NoError(t, err)
		sameLevels(t, whole, parts, 0.05, l.Partitions[i].Name)
	})
}

// Close before a ship's side the area of the whole bounds the level, in whatever parts it is written.
func TestHalvesHeardCloseBy(t *testing.T) {
	b := demo(t, "dry-stack")
	l := b.Layouts[0]
	hush := spectrum.Fill(20)
	l.Engines[0].ExhaustLevel = &hush
	b.Listeners = []path.Listener{{Name: "fender", In: path.Outside, At: path.Point{5.7, 2.1, 0.4}}}
	for i, p := range l.Partitions {
		if p.Name == "topsides" {
			whole, parts := quick(t, b, l).Listeners[0], quick(t, b, halved(l, i)).Listeners[0]
			for band, v := range byAir(whole, "main casing") {
				require.InDelta(t, v, byAir(parts, "main casing")[band], 0.05, "band %d", band)
			}
			return
		}
	}
	t.Fatal("no topsides")
}

// apart are the middles of two halves of a wall that lie above each other, or beside each other in a deck.
func apart(p path.Partition) (a, b path.Point) {
	k := 2
	if p.Facing == "up" || p.Facing == "down" {
		k = 1
	}
	a, b = p.At, p.At
	a[k], b[k] = a[k]+math.Sqrt(p.Area)/4, b[k]-math.Sqrt(p.Area)/4
	return a, b
}

// placed is a layout with partition i elsewhere.
func placed(l *path.Layout, i int, at path.Point) *path.Layout {
	return with(l, func(all []path.Partition) []path.Partition {
		all[i].At = at
		return all
	})
}

// Halves that stand at their own middles bring what lies between the whole wall at the one and at the other: a wall in
// view over four pieces is then seen over eight, and no level moves further than that. 0.1 dB is for the smaller area
// that bounds the level close by each (set after 0.09 dB was seen). A run takes an eighth of the walls.
func TestHalvesAtTheirOwnMiddles(t *testing.T) {
	tried, taken := 0, slices.Collect(turns.Of(t, 1000, 8))
	for _, b := range houseBoats(t) {
		l := b.Layouts[0]
		for i, p := range l.Partitions {
			if !p.AtStated || p.Facing == "" {
				continue
			}
			if tried++; !slices.Contains(taken, tried) {
				continue
			}
			upper, lower := apart(p)
			parts := quick(t, b, placed(placed(halved(l, i), i, upper), len(l.Partitions), lower))
			one, two := quick(t, b, placed(l, i, upper)), quick(t, b, placed(l, i, lower))
			for k, h := range parts.Listeners {
				for band, v := range h.Bands {
					x, y := one.Listeners[k].Bands[band], two.Listeners[k].Bands[band]
					require.True(t, v > math.Min(x, y)-0.1 && v < math.Max(x, y)+0.1, "%s at %s, band %d: %.3f of %.3f and %.3f", p.Name, h.Listener.Name, band, v, x, y)
				}
			}
		}
	}
	require.Greater(t, tried, 20)
}
