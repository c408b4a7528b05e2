package readings

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
	"hushwake/testdata/turns"
)

// What is known of one layout is the same whether the others will be asked about or not; those are not known. (First asked for to
// the bit, which one run of layouts side by side missed in the last one.)
func TestKnowSomeLayouts(t *testing.T) {
	name := "three-quotes"
	if turns.All() { // the largest
		name = "dry-stack"
	}
	boat, err := boatfile.LoadFile("../../../testdata/" + name + ".yaml")
	require.NoError(t, err)
	all, err := Know(boat, Options{Options: draws.Options{N: 500}})
	require.NoError(t, err)
	some, err := Know(boat, Options{Options: draws.Options{N: 500}, Layouts: []*path.Layout{boat.Layouts[4], boat.Layouts[2]}})
	require.NoError(t, err)
	require.Len(t, some.Predictions, 2)
	require.Nil(t, some.At(boat.Layouts[0].Name))
	for _, i := range []int{2, 4} {
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
		asItStands, err := all.Quick(all.Central[i])
		require.NoError(t, err)
		unknown := all.Central[i]
		unknown.Listeners = slices.Clone(unknown.Listeners)
		for j := range unknown.Listeners {
			unknown.Listeners[j].Routes = slices.Clone(unknown.Listeners[j].Routes)
			for r := range unknown.Listeners[j].Routes {
				unknown.Listeners[j].Routes[r].Source = "another"
			}
		}
		byOtherWays, err := all.Quick(unknown)
		require.NoError(t, err)
		for j, h := range all.Predictions[i].Listeners {
			require.InDelta(t, h.DBA(), asItStands.Listeners[j].DBA(), 1e-9, "few draws tell of a layout as it stands what all of them do")
			require.InDelta(t, h.DBA(), byOtherWays.Listeners[j].DBA(), 1e-9, "and of ways that it does not have, as many dB more or less as of all together")
		}
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
