package advice

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/draws/drawstest"
)

func spreadOf(t testing.TB, all []path.Prediction) (*draws.Model, draws.Spread) {
	m := model(t, all)
	s, err := m.MonteCarlo(draws.Options{N: 1000})
	require.NoError(t, err)
	return m, s
}

func TestRankPutsTheQuietestFirstAndRefusedLast(t *testing.T) {
	all := drawstest.Boat(4, 1)
	all[3].Refused = true
	_, s := spreadOf(t, all)
	ranks := Rank(all, s)
	require.Len(t, ranks, 4)
	require.Equal(t, "helm", ranks[0].Listener)
	var names []string
	for _, r := range ranks[0].Rows {
		names = append(names, r.Layout)
	}
	require.Equal(t, []string{"layout 3", "layout 2", "layout 1", "layout 4"}, names)
}
