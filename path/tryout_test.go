package path_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

func sumOfRoutes(h path.Heard) float64 { return h.DBA() }

// The ways behind a line are asked for once, in one layout; the level that they give to every other line is that of a
// prediction of its own, within 0.3 dB (set beforehand).
func TestTryoutIsThePrediction(t *testing.T) {
	for _, name := range []string{"dry-stack", "three-quotes", "choice"} {
		b := demo(t, name)
		base := b.Layouts[0]
		session := path.NewSession(b)
		for _, ear := range b.Listeners {
			try, err := session.Tryout(base, []string{"main"}, ear, path.Routes)
			require.NoError(t, err)
			for _, l := range b.Layouts {
				if l.Spaces[0].Name != base.Spaces[0].Name || len(l.Partitions) != len(base.Partitions) || l.Name == "as found, door open" {
					continue
				}
				as := *base // its lines in the boat as it is
				as.Exhausts = l.Exhausts
				full, err := session.Predict(&as, path.Routes)
				require.NoError(t, err)
				x, err := try.March(&as)
				require.NoError(t, err)
				_, err = x.Findings(nil)
				require.NoError(t, err)
				got, err := x.Levels([]float64{1}, []float64{1})
				require.NoError(t, err)
				for _, h := range full.Listeners {
					if h.Listener.Name == ear.Name {
						t.Logf("%s %s %s: %.2f %.2f", name, l.Name, ear.Name, got[0], sumOfRoutes(h))
						assert.InDelta(t, h.DBA(), got[0], 0.3, "%s: %s at %s", name, l.Name, ear.Name)
					}
				}
				assert.Equal(t, full.Exhausts[0].Rated.BackPressure, x.Pressure["main"])
				assert.InDelta(t, *full.Length, x.Length, 1e-12)
			}
		}
	}
}

var _ = silencer.Danger
var _ = spectrum.Silent
