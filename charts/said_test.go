package charts

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report"
	"hushwake/path/report/parts"
)

// A caution of all layouts stands once, one of some names them, and the gravest comes first.
func TestCautionsAreSaidOnce(t *testing.T) {
	r := sample(3, 1)
	r.Cautions = []report.Caution{{Severity: "note", Text: "n", Places: []int{0, 2}}, {Severity: "warning", Text: "w"}}
	for i := range r.Layouts {
		r.Layouts[i].Cautions = []report.Caution{{Severity: "danger", Text: "d"}}
	}
	r.Layouts[2].Cautions = append(r.Layouts[2].Cautions, report.Caution{Severity: "caution", Text: "c"})
	all := saidOnce(r)
	require.Len(t, all, 4)
	var said []string
	for _, c := range all {
		said = append(said, c.Severity)
	}
	assert.Equal(t, gravest, said)
	assert.Empty(t, all[0].in, "said of every layout")
	assert.Empty(t, all[1].in)
	assert.Equal(t, []int{2}, all[2].in)
	assert.Equal(t, "1 danger, 1 warning, 1 caution, 1 note", cautionCount(all))
	assert.Equal(t, "Layouts 1 and 3", layoutsSaid(all[3].in))
	r.Cautions[0].Places = []int{3}
	assert.ErrorContains(t, check(r), "caution")
}

// The first screen gives every layout's level and its limit, the engine's share and what to do.
func TestAnswerAtAGlance(t *testing.T) {
	r := sample(2, 1)
	r.Listeners[0].LimitDBA = f64(70)
	r.Layouts[0].Refused, r.Layouts[1].Refused = true, false
	h := &r.Layouts[1].Heard[0]
	h.LevelDBA, h.LowDBA, h.HighDBA = f64(75), f64(70), f64(80)
	h.Paths = []report.Route{{Source: "hull", LevelDBA: f64(75)}, {Source: "outlet", LevelDBA: f64(65)}}
	e := &r.Layouts[1].Exhausts[0]
	e.RatedBackPressure, e.RatedLow, e.RatedHigh, e.Limit = f64(4), f64(3), f64(5), f64(10)
	r.Offers = []report.Offer{{Name: "offer X", Layout: -1, Questions: []string{"a?", "b?"}}}
	g := glance(r, unitsOf(false))
	assert.Equal(t, "refused", g.Rows[0][1].Text)
	assert.Equal(t, "over every limit", g.Rows[1][1].Text)
	assert.Equal(t, "75 over", g.Rows[1][2].Text)
	assert.Equal(t, "40\u00a0%", g.Rows[1][4].Text)
	cost := strings.Join(engineCost(r, unitsOf(false)), " ")
	for _, part := range []string{"layout 2", "4.00\u00a0kPa", "3.00 to 5.00", "40\u00a0% of the 10.00\u00a0kPa"} {
		assert.Contains(t, cost, part)
	}
	var steps []string
	for _, i := range nextSteps(r).Items {
		steps = append(steps, i.Text)
	}
	text := strings.Join(steps, "\n")
	assert.Contains(t, text, "offer X: 2")
	assert.Contains(t, text, "5\u00a0dB over the limit of 70\u00a0dB(A)")
	assert.Contains(t, text, "91\u00a0% of the energy) comes by \"hull\"") // 10 of 11 parts
}

// What is said of every layout, or of every box, is said once.
func TestNothingIsRepeated(t *testing.T) {
	r := sample(3, 1)
	for i := range r.Layouts {
		r.Layouts[i].Heard[0].Means = "Talk is easy. The room booms."
	}
	r.Layouts[1].Heard[0].Means = "Talk is hard. The room booms."
	assert.Equal(t, []string{"Layouts 1 and 3: Talk is easy.", "Layout 2: Talk is hard.", "With every layout: The room booms."}, meanings(r, 0))
	boxes := &report.Page{Enclosures: []parts.Enclosure{{Name: "a", Warnings: []string{"leak assumed", "warm"}}, {Name: "b", Warnings: []string{"leak assumed"}}}}
	lists := boxVerdicts(boxes)
	require.Len(t, lists, 1)
	assert.Equal(t, []item{{Text: "Leak assumed."}, {Text: "A: warm."}}, lists[0].Items)
	c := report.Chain{Source: "s", Links: []report.ExplainStep{{Name: "l", Bands: ptrs(1, 2)}}}
	d := report.Chain{Source: "s", Links: []report.ExplainStep{{Name: "l", Bands: ptrs(1, 2.2)}}}
	assert.Equal(t, [][]int{{0, 2}, {1}}, alike([]report.Chain{c, d, c}))
}

// An offer that can't be judged gets no reading to accept, and a refused layout no rank.
func TestOffersInWords(t *testing.T) {
	r := sample(2, 1)
	r.Layouts[1].Refused, r.Layouts[1].Refusals = true, []string{"Too wide."}
	r.Offers = []report.Offer{{Name: "offer A", Why: "offer A can't be judged because no octaves.", Layout: -1, Acceptance: []report.Reading{{LevelDBA: f64(70)}}},
		{Name: "offer C", Judged: true, Layout: 1, Rank: 1}}
	order := offerOrder(r.Offers)
	assert.Equal(t, "refused", verdict(r, r.Offers[1]))
	assert.Equal(t, []string{"Too wide."}, ranking(r, order).Items[0].Detail)
	assert.Equal(t, "Offer A can't be judged because no octaves.", unjudged(r, order).Items[0].Text, "the name stands once")
	for _, row := range acceptanceTable(r, order).Rows {
		if row[0].Text == "offer A" {
			assert.Equal(t, "–", row[2].Text)
		}
	}
}

// A column in which nothing is said is left out; a column of numbers stays.
func TestSilentColumns(t *testing.T) {
	got := told(table{Head: []string{"a", "b", "c", "d"}, Rows: [][]cell{{words(""), words(""), num("–"), words("x")}, {words("n"), words(""), num("–"), words("")}}})
	assert.Equal(t, []string{"a", "c", "d"}, got.Head)
	assert.Equal(t, "x", got.Rows[0][2].Text)
	assert.Len(t, got.Rows[1], 3)
}

// Long names may break at their joints, figures may not, and nothing is lost.
func TestPartsOfNames(t *testing.T) {
	assert.Equal(t, []string{"engines.", "main.", "fuel_", "consumption 0.5 m"}, nameParts("engines.main.fuel_consumption 0.5 m"))
	assert.Equal(t, []string{""}, nameParts(""))
}

// A box that cooks its engine is said on the first screen.
func TestCookedEngineIsSaidAtOnce(t *testing.T) {
	r := sample(1, 1)
	r.Layouts[0].Refused = false
	r.Enclosures = []parts.Enclosure{{Name: "box", Places: []int{0}, Verdicts: []parts.Verdict{{Code: "cooked", Text: "too hot"}}}}
	assert.Contains(t, glance(r, unitsOf(false)).Rows[0][1].Text, "engine cooked in its box")
	assert.Contains(t, nextSteps(r).Items[0].Text, "leaves the engine cooked")
	r.Enclosures[0].Places = []int{7}
	assert.ErrorContains(t, check(r), "no layout")
}

// Layouts with one and the same line share its charts, others never do.
func TestSameLinesStandTogether(t *testing.T) {
	r := sample(3, 1)
	for i := range r.Layouts {
		r.Layouts[i].Exhausts = []report.Exhaust{sampleExhaust(1)}
	}
	r.Layouts[1].Exhausts[0].Along[0].LossKPa = f64(9)
	assert.Equal(t, []int{0, 2}, sharers(r, 2, 0))
	assert.Equal(t, "Layouts 1 and 3", lineName(r, 0, 0))
	assert.Equal(t, titled(r, 1), lineName(r, 1, 0))
	assert.Len(t, lossSection(r).Figures, 2)
	assert.Len(t, alongSection(r, unitsOf(false)).Figures, 4)
}

// Pins of booms never cover one another.
func TestPinsKeepApart(t *testing.T) {
	p := &pinboard{x: scale{0, 100, 10}, y: scale{0, 100, 10}}
	assert.True(t, p.free(50, 50))
	assert.False(t, p.free(55, 45))
	assert.True(t, p.free(70, 50))
	assert.True(t, p.free(50, 70))
}
