package scene_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/scene"
	"hushwake/source/spectrum"
)

// A way counts by energies that are the levels of the route which it would make, and these are the sum of its steps.
func TestArrivalsAreTheirRoutes(t *testing.T) {
	for _, name := range []string{"dry-stack", "generator-box"} {
		b := demo(t, name)
		for _, ear := range b.Listeners {
			energies, routes, err := scene.Arrivals(b, b.Layouts[0], ear)
			require.NoError(t, err)
			require.Greater(t, len(routes), 5, "%s %s", name, ear.Name)
			for i, r := range routes {
				off := 0.0
				var steps spectrum.Bands
				for _, s := range r.Steps {
					steps = steps.Plus(s.Bands)
				}
				for band, v := range r.Weighted() {
					off = max(off, math.Abs(steps[band]-r.Bands[band]), math.Abs(energies[i][0][band]/spectrum.Power(r.Bands[band])-1),
						math.Abs(energies[i][1][band]/spectrum.Power(v)-1))
				}
				require.Less(t, off, 1e-9, r.Route)
			}
		}
	}
}

// Whether a level is under a limit is what its A-weighted sum says, close to the limit too.
func TestUnderIsTheSum(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	said := map[bool]int{}
	for range 20000 {
		var level spectrum.Bands
		for b := range level {
			level[b] = 20 + 40*r.Float64()
		}
		limit := level.DBA() + 24*(r.Float64()-0.5)
		got := scene.Under(&level, limit)
		require.Equal(t, level.DBA() < limit, got)
		said[got]++
	}
	require.Greater(t, min(said[true], said[false]), 5000)
	flat := spectrum.Fill(30).Minus(spectrum.A)
	require.True(t, scene.Under(&flat, 39.55))
	require.False(t, scene.Under(&flat, 39.53))
}
