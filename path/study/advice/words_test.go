package advice

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/study/draws"
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
	a := Answer(Rank(all, s)[0], m.Matters(draws.Belief{}, "layout 2", "helm"))
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

func ranked(listener string, rows ...Ranked) Ranking { return Ranking{Listener: listener, Rows: rows} }

func row(name string, level float64, refused bool) Ranked {
	return Ranked{Layout: name, Level: level, Low: level - 3, High: level + 3, Refused: refused}
}

// "Most" stands only where the figure beside it is more than half; otherwise the largest causes stand with theirs.
func TestMostIsMoreThanHalf(t *testing.T) {
	share := func(name string, s float64) draws.Share { return draws.Share{Term: draws.Term{Name: name}, Share: s} }
	assert.Contains(t, doubtText([]draws.Share{share("source level", 0.51), share("panel", 0.2)}), "Most of the doubt is the source level (51 %")
	text := doubtText([]draws.Share{share("source level", 0.19), share("panel", 0.18), share("quote", 0.1), share("room", 0.05)})
	assert.NotContains(t, text, "Most of")
	for _, want := range []string{"source level (19 %", "panel (18 %", "quote (10 %"} {
		assert.Contains(t, text, want)
	}
	assert.NotContains(t, text, "room")
}

// The layout that is called the quietest is also told by the seats where it is not.
func TestQuietestIsToldWithTheOtherSeats(t *testing.T) {
	all := []Ranking{
		ranked("helm", row("a", 60, false), row("b", 65, false), row("c", 70, false), row("d", 50, true)),
		ranked("cabin", row("b", 55, false), row("c", 58, false), row("a", 61, false), row("d", 40, true)),
		ranked("deck", row("b", 70, false), row("a", 73.4, false), row("c", 80, false)),
		ranked("quay", row("b", 50, false), row("a", 50.9, false), row("c", 60, false)),
	}
	text := Elsewhere(all, 0)
	assert.Contains(t, text, `at cabin it is the loudest, 6 dB over "b"`)
	assert.Contains(t, text, `at deck "b" is quieter by 3 dB`)
	assert.NotContains(t, text, "quay", "less than 1 dB is no difference")
	assert.NotContains(t, text, `"d"`, "what is refused is no alternative")
	assert.Empty(t, Elsewhere(all[:1], 0))
	assert.Empty(t, Elsewhere([]Ranking{ranked("helm", row("d", 50, true)), all[1]}, 0))
	assert.Empty(t, Elsewhere([]Ranking{all[0], ranked("cabin", row("a", 55, false), row("b", 60, false))}, 0))
}
