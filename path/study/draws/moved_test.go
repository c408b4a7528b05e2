package draws

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/floats"

	"hushwake/path"
	"hushwake/path/study/draws/drawstest"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Draws pulled by two deviations, of half the spread, say so of their term in dB; a cause mixed of two terms of which one was
// pulled moves by that one's weight. Before any reading nothing has moved.
func TestMovedByDraws(t *testing.T) {
	mix := path.Uncertain{Term: "element model", Key: "chamber", SD: spectrum.Fill(3), Mix: []silencer.Mixed{{Key: "a", Weight: 0.6}, {Key: "b", Weight: -0.8}}}
	h := path.Heard{Listener: path.Listener{Name: "helm"}, Routes: []path.Route{{Bands: drawstest.ExhaustBands,
		Steps: []path.Step{{Uncertain: []path.Uncertain{drawstest.Uncertain("source level", "s", 4), mix}}}}}}
	m := model(t, []path.Prediction{{Layout: &path.Layout{Name: "one"}, Listeners: []path.Heard{h}}})
	e, err := m.Draw(Options{N: 2000})
	require.NoError(t, err)
	z := e.Terms(m)
	for k, term := range m.Terms {
		if z[k] = slices.Clone(z[k]); term.Key == "s" || term.Key == "a" {
			floats.Scale(0.5, z[k])
			floats.AddConst(2, z[k])
		}
	}
	for _, c := range []struct {
		e                                *Ensemble
		source, sourceSD, mixed, mixedSD float64
	}{{e, 0, 4, 0, 1}, {e.After(m, z), 8, 2, 1.2, 0.854}} { // sqrt(0.3^2 + 0.8^2)
		all := m.Moved(c.e)
		require.Len(t, all, 2)
		for _, x := range all {
			require.Equal(t, "dB", x.Unit)
			if x.Key == "s" {
				require.InDelta(t, 4, x.SDBefore, 1e-9)
				require.InDelta(t, c.source, x.Posterior, 0.01)
				require.InDelta(t, c.sourceSD, x.SDAfter, 0.01)
				continue
			}
			require.InDelta(t, c.mixed, x.Posterior/x.SDBefore, 0.01)
			require.InDelta(t, c.mixedSD, x.SDAfter/x.SDBefore, 0.03)
		}
	}
}
