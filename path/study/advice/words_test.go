package advice

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/study/draws/drawstest"
)

func TestDifferenceInWords(t *testing.T) {
	for _, c := range []struct {
		db   float64
		want string
	}{{0.4, "no difference"}, {-3, "barely heard"}, {5, "plainly"}, {-10, "about half as loud"}, {10, "about twice as loud"},
		{-20, "about a quarter as loud"}, {-30, "about 1/8 as loud"}} {
		require.Contains(t, Difference(c.db), c.want)
	}
}

func TestAnswerNamesTheBestTheNextAndTheRefused(t *testing.T) {
	all := drawstest.Boat(3, 1)
	all[2].Refused = true
	m, s := spreadOf(t, all)
	a := Answer(Rank(all, s)[0], m.Matters(m.Prior(), "layout 2", "helm"))
	require.Len(t, a, 3)
	require.Contains(t, a[0], `"layout 2"`)
	require.Contains(t, a[1], `"layout 1"`)
	require.Contains(t, a[2], `"layout 3"`)
	for i := range all {
		all[i].Refused = true
	}
	_, s = spreadOf(t, all)
	require.Contains(t, Answer(Rank(all, s)[0], nil)[0], "Every layout is refused")
}
