package draws

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws/drawstest"
	"hushwake/source/spectrum"
)

// What comes through mounts and hull and what comes by all other ways add up to what is heard.
func TestAirAndStructureAddUp(t *testing.T) {
	all := drawstest.Boat(1, 2)
	all[0].Listeners[0].Routes[1].Way = path.ByStructure
	seat := model(t, all).Layouts[0].Listeners[0]
	air, borne := seat.AirAndStructure()
	require.Len(t, borne.Routes, 1)
	require.Equal(t, path.ByStructure, borne.Routes[0].Way)
	require.Len(t, air.Routes, len(seat.Routes)-1)
	for _, w := range []spectrum.Bands{spectrum.A, spectrum.C} {
		require.InDelta(t, seat.Level(nil, w), spectrum.Sum(air.Level(nil, w), borne.Level(nil, w)), 1e-9)
	}
}

// A route made of its doubts moves with them and with nothing else; a doubt of nothing is no term.
func TestRouteOfMovesWithItsDoubts(t *testing.T) {
	m := model(t, drawstest.Boat(1, 0))
	was := len(m.Terms)
	r := m.RouteOf("layout 1", spectrum.Fill(60), spectrum.A, []path.Uncertain{drawstest.Uncertain("source level", "source level/main", 4),
		drawstest.Uncertain("new", "new", 1), drawstest.Uncertain("none", "none", 0)})
	require.Len(t, m.Terms, was+1)
	require.Len(t, r.Keys, 2)
	z := make([]float64, len(m.Terms))
	z[r.Keys[0]], z[r.Keys[1]] = 1, -2
	require.InDelta(t, 62, r.At(z)[3], 1e-9)
}
