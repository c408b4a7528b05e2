package scene_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/source"
	"hushwake/source/cores"
	"hushwake/testdata/turns"
)

// The layouts of a boat predicted beside and after each other in one session are, word for word, those of sessions of their own,
// with the doubt of an outlet that one of them doesn't state.
func TestAlternativesOfOneSession(t *testing.T) {
	b := *demo(t, "dry-stack")
	if !turns.All() {
		b.Layouts = b.Layouts[:3]
	}
	one := b.Layouts[0]
	outlet := "layouts." + one.Base + "." + one.Engines[0].Name + ".outlet"
	b.Assumptions = append(slices.Clone(b.Assumptions), source.Assumption{Of: outlet, PlusMinusDB: 4})
	session, got := scene.NewSession(&b), make([]path.Prediction, len(b.Layouts))
	cores.Each(len(got), func(i int) {
		if p, err := session.Predict(b.Layouts[i], path.Routes); err == nil {
			got[i] = p
		}
	})
	for i, l := range b.Layouts { // and after each other, in the scenes that others left
		again, err := session.Predict(l, path.Routes)
		require.NoError(t, err)
		require.Equal(t, got[i].Listeners, again.Listeners, l.Name)
		want, err := scene.PredictIn(&b, l, path.Routes)
		require.NoError(t, err)
		require.Equal(t, want.Listeners, got[i].Listeners, l.Name)
		require.Equal(t, want.Warnings, got[i].Warnings)
		require.Equal(t, want.Assumptions, got[i].Assumptions)
		require.Equal(t, l.Base == one.Base, doubts(got[i], outlet+" not stated"), l.Name)
	}
}

// doubts tells whether a cause is among those of any route.
func doubts(p path.Prediction, key string) bool {
	for _, h := range p.Listeners {
		for _, r := range h.Routes {
			for _, s := range r.Steps {
				if slices.ContainsFunc(s.Uncertain, func(u path.Uncertain) bool { return u.Key == key }) {
					return true
				}
			}
		}
	}
	return false
}
