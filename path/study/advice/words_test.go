package advice

import (
	"math"
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
	}{{0.4, "no difference"}, {-3, "barely heard, though 0.5 times"}, {3, "though 2.0 times"}, {5, "plainly"}, {7.3, "plainly"}, {-7.5, "about half as loud"}, {-16, "about a third as loud"}, {-10, "about half as loud"}, {10, "about twice as loud"},
		{-20, "about a quarter as loud"}, {-30, "far less than a quarter as loud"}, {40, "many times as loud"}} {
		require.Contains(t, Difference(c.db), c.want)
	}
}

// A ratio of loudnesses goes before differences of level: 16 dB that are 0.45 times as loud halve it and leave no third.
func TestLoudnessInWords(t *testing.T) {
	for x, want := range map[float64]string{0.1: "far less than a quarter as loud as", 0.25: "about a quarter as loud as", 0.5: "about half as loud as",
		0.75: "somewhat less loud than", 1: "about as loud as", 1.3: "somewhat louder than", 2: "about twice as loud as", 9: "many times as loud as"} {
		require.Equal(t, want, Loudness(x))
	}
	of := func(level, sone float64) Choice {
		return Choice{Levels: [][]float64{{level, level}}, Sones: []float64{sone}}
	}
	require.Equal(t, "about half as loud, 0.45 times by sones", heard(of(61, 16), of(77, 35.5), 0))
	require.Equal(t, "somewhat less loud, 0.7 times by sones", heard(of(61, 7), of(77, 10), 0))
	require.Equal(t, "about half as loud, 0.55 times by sones", Heard(-7.5, 0.55))
	require.Equal(t, "plainly heard", Heard(-7.3, 0.55))
	require.Equal(t, "plainly heard", heard(of(71, 16), of(77, 35.5), 0))
	require.Equal(t, "about a third as loud", heard(of(61, 0), of(77, 35.5), 0), "by the levels, where there are no sones")
}

// Who is quietest by the median need not be likeliest to keep the limit: both are named, once they differ as printed.
func TestBothAreNamedWhereTheSurerIsAnother(t *testing.T) {
	p := func(v float64) *float64 { return &v }
	row := func(name string, level, over float64) Ranked {
		return Ranked{Layout: name, Level: level, Low: level - 5, High: level + 5, Over: p(over)}
	}
	require.Contains(t, bestText("bunk", []Ranked{row("a", 60, 0.55), row("b", 62, 0.4)}), `; "b" likelier keeps the limit, 40 % over it against 55 %.`)
	require.Contains(t, bestText("bunk", []Ranked{row("a", 60, 0.55), row("b", 60.2, 0.4)}), `lead over "b"; "b" likelier`)
	require.NotContains(t, bestText("bunk", []Ranked{row("a", 60, 0.401), row("b", 62, 0.4)}), "likelier")
	require.NotContains(t, bestText("bunk", []Ranked{row("a", 60, 0.3), row("b", 62, 0.4)}), "likelier")
	require.NotContains(t, bestText("bunk", []Ranked{{Layout: "a"}, {Layout: "b"}}), "likelier", "no limit is stated")
}

func TestAnswerNamesTheBestAndTheRefused(t *testing.T) {
	all := drawstest.Boat(3, 1)
	all[2].Refused = true
	m, s := spreadOf(t, all)
	terms := m.Matters(draws.Belief{}, "layout 2", "helm")
	a := Answer(Advice{Sentences: []string{"Do it."}}, Rank(all, s)[0], terms, false)
	require.Len(t, a, 3)
	require.Equal(t, "Do it.", a[0])
	require.Contains(t, a[1], `"layout 2"`)
	require.Contains(t, a[2], `"layout 3"`)
	require.Contains(t, a[2], "one reading at this seat")
	require.NotContains(t, Answer(Advice{}, Rank(all, s)[0], terms, true)[2], "one reading", "the file holds it")
	for i := range all {
		all[i].Refused = true
	}
	_, s = spreadOf(t, all)
	require.Empty(t, Answer(Advice{}, Rank(all, s)[0], nil, false)[1])
}

// A layout without a level has to be asked about: it comes after those that are ranked and before refused ones.
func TestAskedComesBetweenRankedAndRefused(t *testing.T) {
	all := drawstest.Boat(4, 0)
	all[3].Refused = true
	_, s := spreadOf(t, all)
	s.Layouts[2].Listeners[0].Level = math.NaN()
	r := Rank(all, s)[0]
	var names []string
	for _, row := range r.Rows {
		names = append(names, row.Layout)
	}
	require.Equal(t, []string{"layout 2", "layout 1", "layout 3", "layout 4"}, names)
	require.Contains(t, Answer(Advice{}, r, nil, false)[2], `Ask first, before it is judged: "layout 3"`)
}

// "Most" stands only where the figure beside it is more than half; otherwise the largest causes stand with theirs.
func TestMostIsMoreThanHalf(t *testing.T) {
	share := func(name string, s float64) draws.Share { return draws.Share{Term: draws.Term{Name: name}, Share: s} }
	assert.Contains(t, doubtText([]draws.Share{share("source level", 0.51), share("panel", 0.2)}, false), "Most of the doubt is the source level (51 %")
	text := doubtText([]draws.Share{share("source level", 0.19), share("panel", 0.18), share("quote", 0.1), share("room", 0.05)}, false)
	assert.NotContains(t, text, "Most of")
	for _, want := range []string{"source level (19 %", "panel (18 %", "quote (10 %"} {
		assert.Contains(t, text, want)
	}
	assert.NotContains(t, text, "room")
	left := doubtText([]draws.Share{share("source level", 0.37), share("panel", 0.18)}, true)
	assert.Contains(t, left, "No one cause makes most of the doubt that the readings leave; the largest are the source level (37 %")
	assert.NotContains(t, left, "One reading")
	assert.Contains(t, doubtText([]draws.Share{share("source level", 0.7)}, true), "Most of the doubt that the readings leave is the source level (70 %")
	cabin, saloon := share("room", 0.24), share("room", 0.23)
	cabin.Key, saloon.Key = "room/cabin", "room/saloon"
	assert.Contains(t, doubtText([]draws.Share{cabin, saloon}, false), "the room of cabin (24 % of the variance), the room of saloon (23 %", "two of one name are told apart")
	whole, part := share("hull", 0.24), share("hull", 0.23)
	whole.Key, part.Key = "hull/hull not stated", "hull/wheelhouse"
	assert.Contains(t, doubtText([]draws.Share{whole, part}, false), "the hull, not stated (24 % of the variance), the hull of wheelhouse (23 %")
}

// A lead that nobody hears gets no chance in per cents: it would rank tenths of a decibel.
func TestUnheardLeadIsNotRanked(t *testing.T) {
	rows := []Ranked{{Layout: "a", Level: 64, Low: 61, High: 67, Quietest: 0.93}, {Layout: "b", Level: 64.4, Low: 62, High: 68}}
	assert.Contains(t, bestText("pillow", rows), `nobody hears its lead over "b"`)
	assert.NotContains(t, bestText("pillow", rows), "%")
	rows[1].Level = 66
	assert.Contains(t, bestText("pillow", rows), "very likely the quietest of all (93 %)")
}

// A chance is said as the figure beside it reads.
func TestChanceFollowsItsFigure(t *testing.T) {
	require.Equal(t, "likely", chance(0.598))
	require.Equal(t, "perhaps (about even)", chance(0.594))
}
