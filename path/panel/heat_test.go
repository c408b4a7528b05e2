package panel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Walls of 4.7 m2 by hand: 12 mm plywood, 50 mm foam and a mat pass about 3.1 W/K, 1.5 mm steel alone about 25, each
// within a fifth; ISO 6946 by hand for two panes of 4 mm on 12 mm of air without radiation shields: about 3 W/(m2 K).
func TestTransmittance(t *testing.T) {
	m := Default()
	u := func(b BuildUp) float64 {
		u, assumed := m.Transmittance(b)
		require.Empty(t, assumed)
		return u
	}
	box := BuildUp{{Material: "plywood", Thickness: 0.012}, {Material: "foam", Thickness: 0.05}, {Material: "limp mat", Mass: 5}}
	assert.InEpsilon(t, 3.1, 4.7*u(box), 0.2)
	assert.InEpsilon(t, 25, 4.7*u(one("steel", 1.5)), 0.2)
	assert.InDelta(t, 2.95, u(BuildUp{{Material: "glass", Thickness: 0.004}, {Material: "air", Thickness: 0.012}, {Material: "glass", Thickness: 0.004}}), 0.15)
	assert.InDelta(t, 1/0.17, u(nil), 1e-9, "films alone")
	assert.InDelta(t, 1/(0.17+0.012/0.15), u(one("plywood", 12)), 1e-9, "series of resistances")
}

// Every layer holds heat back a little, wherever it stands; a material of no known conductivity is named.
func TestTransmittanceOrder(t *testing.T) {
	m := Default()
	last := math.Inf(1)
	var b BuildUp
	for _, l := range []Layer{{Material: "steel", Thickness: 0.003}, {Material: "air", Thickness: 0.003}, {Material: "air", Thickness: 0.02},
		{Material: "foam", Thickness: 0.02}, {Material: "limp mat", Mass: 5}, {Material: "brick", Thickness: 0.1}} {
		b = append(b, l)
		u, _ := m.Transmittance(b)
		assert.Less(t, u, last)
		last = u
	}
	back := BuildUp{b[5], b[4], b[3], b[2], b[1], b[0]}
	u, _ := m.Transmittance(back)
	assert.InDelta(t, last, u, 1e-12)
	for _, row := range m.Rows {
		assert.True(t, row.Conductivity > 0 || row.Kind == gapLayer, row.Name)
	}
	m.Add(Material{Name: "house board", Density: 500, Source: "own", Mark: "measured"})
	u, assumed := m.Transmittance(one("house board", 20))
	assert.InDelta(t, 1/(0.17+0.02/0.2), u, 1e-9)
	require.Len(t, assumed, 1)
	assert.Contains(t, assumed[0], "house board")
	m.Add(Material{Name: "house wool", Density: 50, Kind: absorberLayer, Source: "own", Mark: "measured"})
	u, assumed = m.Transmittance(one("house wool", 20))
	assert.InDelta(t, 1/(0.17+0.02/0.04), u, 1e-9)
	assert.Len(t, assumed, 1)
	u, _ = m.Transmittance(BuildUp{{Material: "foam", Thickness: math.NaN()}, {Material: "air", Thickness: -1}})
	assert.InDelta(t, 1/0.17, u, 1e-9, "what is no thickness holds nothing back")
}

func TestLiningAsLayer(t *testing.T) {
	m := Default()
	for _, c := range []struct {
		name    string
		d, want float64
	}{{"foam", 0, 0.025}, {"foam", 0.05, 0.05}, {"mineral wool", 0, 0.05}, {"bare steel", 0.01, 0}, {"furnished cabin", 0, 0}, {"", 0.02, 0}} {
		l, ok := m.Lining(c.name, c.d)
		assert.Equal(t, c.want > 0, ok, c.name)
		if ok {
			assert.InDelta(t, c.want, l.Thickness, 1e-12, c.name)
		}
	}
}
