package readings

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
)

// What is known of one layout is the same to the bit whether the others will be asked about or not; those are not known.
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
		require.Equal(t, want.Listeners, got.Listeners, name)
		require.Equal(t, want.Exhausts[0].Rated, got.Exhausts[0].Rated, name)
		require.Equal(t, want.Findings, got.Findings, name)
		tried := *boat.Layouts[i]
		tried.Engines = append([]path.Engine(nil), tried.Engines...)
		p, err := all.Session().Predict(&tried, path.Fast)
		require.NoError(t, err)
		a, err := all.Quick(p)
		require.NoError(t, err)
		b, err := some.Quick(p)
		require.NoError(t, err)
		require.Equal(t, a.Listeners, b.Listeners, name)
	}
	require.Equal(t, all.Fit.Residuals, some.Fit.Residuals)
}
