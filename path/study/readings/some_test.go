package readings

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
)

// What is known of one layout is the same whether the others will be asked about or not; those are not known. (First asked for to
// the bit, which one run of layouts side by side missed in the last one.)
func TestKnowSomeLayouts(t *testing.T) {
	boat, err := boatfile.LoadFile("../../../testdata/dry-stack.yaml")
	require.NoError(t, err)
	all, err := Know(boat, Options{Options: draws.Options{N: 500}})
	require.NoError(t, err)
	some, err := Know(boat, Options{Options: draws.Options{N: 500}, Layouts: []*path.Layout{boat.Layouts[5], boat.Layouts[2]}})
	require.NoError(t, err)
	require.Len(t, some.Predictions, 2)
	require.Nil(t, some.At(boat.Layouts[0].Name))
	for _, i := range []int{2, 5} {
		name := boat.Layouts[i].Name
		want, got := all.At(name), some.At(name)
		near(t, want.Listeners, got.Listeners)
		require.InDelta(t, want.Exhausts[0].Rated.BackPressure, got.Exhausts[0].Rated.BackPressure, 1e-6, name)
		require.Len(t, got.Findings, len(want.Findings), name)
		tried := *boat.Layouts[i]
		tried.Engines = append([]path.Engine(nil), tried.Engines...)
		p, err := all.Session().Predict(&tried, path.Fast)
		require.NoError(t, err)
		a, err := all.Quick(p)
		require.NoError(t, err)
		b, err := some.Quick(p)
		require.NoError(t, err)
		near(t, a.Listeners, b.Listeners)
	}
	require.Len(t, some.Fit.Residuals, len(all.Fit.Residuals))
}

func near(t *testing.T, want, got []path.Heard) {
	t.Helper()
	for j := range want {
		require.InDelta(t, want[j].DBA(), got[j].DBA(), 1e-9)
		require.InDeltaSlice(t, want[j].Bands[:], got[j].Bands[:], 1e-9)
	}
}
