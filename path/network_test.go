package path_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// The reduced form gives the same levels as the prediction it was taken from.
func TestNetworkEqualsPrediction(t *testing.T) {
	b := demo(t, "dry-stack")
	p := predict(t, b, b.Layouts[0])
	n := path.NewNetwork(&p)
	got := n.Levels(n.Powers(&p), make([]spectrum.Bands, len(p.Listeners)))
	for i, h := range p.Listeners {
		for k := range h.Bands {
			require.InDelta(t, h.Bands[k], got[i][k], 1e-9)
		}
	}
}

// threeEngines is a boat with 3 engines, 4 listeners and 30 routes or more.
func threeEngines(t testing.TB) *path.Boat {
	t.Helper()
	b := read(t, strings.Replace(small(2, ""), "listeners:\n", `  - {between: [room 1, outside], name: windows, at: [4 m, 1 m, 1.2 m], facing: starboard, area: 1 m2, build_up: [6 mm glass], open_area: 0 m2}
  - {between: [room 2, outside], name: hatch, at: [6 m, 0 m, 1.6 m], facing: up, area: 0.3 m2, build_up: [8 mm acrylic], open_area: 0.002 m2}
  - {between: [engine room, outside], name: vents, at: [2 m, -1 m, 0.8 m], facing: port, area: 0.2 m2, build_up: [1 mm steel], open_area: 0.1 m2}
listeners:
  room: {in: room 1, at: [4 m, 0 m, 0.8 m]}
  deck: {in: outside, at: [5 m, 0 m, 2.4 m]}
`, 1))
	l := b.Layouts[0]
	for _, name := range []string{"port", "set"} {
		e, x := l.Engines[0], l.Exhausts[0]
		e.Name, x.Engine = name, name
		x.Line.Outlet.At[1] -= 0.8
		l.Engines, l.Exhausts = append(l.Engines, e), append(l.Exhausts, x)
	}
	return b
}

func TestThreeEnginesAsANetwork(t *testing.T) {
	b := threeEngines(t)
	p := predict(t, b, b.Layouts[0])
	n := path.NewNetwork(&p)
	routes := 0
	for _, h := range p.Listeners {
		routes += len(h.Routes)
	}
	require.Len(t, p.Listeners, 4)
	require.Len(t, p.Exhausts, 3)
	require.GreaterOrEqual(t, routes, 30)
	quieter := n.Powers(&p)
	for i, name := range n.Sources {
		if strings.HasPrefix(name, "main ") {
			quieter[i] = quieter[i].Shift(-200)
		}
	}
	got := n.Levels(quieter, make([]spectrum.Bands, 4))
	for i, h := range p.Listeners { // a third of the energy gone, from about one place: 0.1 to 10 dB
		require.Less(t, got[i].DBA(), h.DBA(), h.Listener.Name)
		require.Greater(t, got[i].DBA(), h.DBA()-10, h.Listener.Name)
	}
}

// BenchmarkNetwork is one prediction of a boat with 4 listeners, 3 engines and 30 routes or more, the
// lines' curves given: under 0.05 ms is asked.
func BenchmarkNetwork(b *testing.B) {
	boat := threeEngines(b)
	p := predict(b, boat, boat.Layouts[0])
	n := path.NewNetwork(&p)
	powers, out := n.Powers(&p), make([]spectrum.Bands, 4)
	b.ReportAllocs()
	for b.Loop() {
		n.Levels(powers, out)
	}
}
