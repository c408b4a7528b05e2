package scene_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
)

// Ways that count by their octaves alone move no level by 0.003 dB(A), no octave by 0.02 dB and no deviation of a level by
// 0.003 dB in the forms that take them so; in full nothing is left out.
func TestFarWaysAreFaint(t *testing.T) {
	for _, name := range []string{"dry-stack", "generator-box", "everything"} {
		b := demo(t, name)
		for _, form := range []path.Form{path.Full, path.Points, path.Fast} {
			l, moved := b.Layouts[len(b.Layouts)-1], false
			got, err := scene.PredictIn(b, l, form)
			require.NoError(t, err)
			restore := scene.WithWholeWays()
			want, err := scene.PredictIn(b, l, form)
			restore()
			require.NoError(t, err)
			bands := inOneEnsemble(t, want, got)
			for j, h := range got.Listeners {
				w := want.Listeners[j]
				moved = moved || h.DBA() != w.DBA()
				require.InDelta(t, w.DBA(), h.DBA(), 0.003, "%s %s", name, h.Listener.Name)
				require.InDeltaSlice(t, w.Bands[:], h.Bands[:], 0.02, "%s %s", name, h.Listener.Name)
				require.InDelta(t, bands[0].Listeners[j].SD, bands[1].Listeners[j].SD, 0.003, "%s %s", name, h.Listener.Name)
				require.InDelta(t, w.ByWay()[path.ByOutlet], h.ByWay()[path.ByOutlet], 1e-3*(w.ByWay()[path.ByOutlet]+1e-4), "%s %s", name, h.Listener.Name)
			}
			require.Equal(t, form != path.Full, moved, "%s form %v", name, form)
		}
	}
}

// inOneEnsemble are the bands of predictions of one layout in the same draws.
func inOneEnsemble(t *testing.T, all ...path.Prediction) (out []draws.LayoutSpread) {
	var e *draws.Ensemble
	for i := range all {
		m, err := draws.NewModel(all[i : i+1])
		require.NoError(t, err)
		if e == nil {
			e, err = m.Draw(draws.Options{N: 200})
			require.NoError(t, err)
		}
		out = append(out, m.Spread(e).Layouts[0])
	}
	return out
}
