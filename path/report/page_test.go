package report

import (
	"crypto/sha256"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
)

// The page tells of the layout that the advice names and of the one that was read, sweeps those two closely, and knows
// the file that it is made of.
func TestPageTellsOfTheChosenLayout(t *testing.T) {
	b := demoWith(t, "three-quotes")
	w, d := governed(t, b, readings.Options{})
	r, err := w.Page(form.Units{})
	require.NoError(t, err)
	assert.Equal(t, *d.Advice.Layout, r.Layouts[r.Chosen].Name)
	assert.Equal(t, "as is, holed", r.Layouts[r.Today].Name)
	text, err := os.ReadFile("../../testdata/three-quotes.yaml")
	require.NoError(t, err)
	assert.Equal(t, fmt.Sprintf("%x", sha256.Sum256(text)), r.Hash)
	assert.Equal(t, "three-quotes.yaml", r.File)
	require.Len(t, r.Sweeps, 2)
	require.Len(t, r.Chains, 2)
	for k, at := range r.InDetail() {
		assert.Equal(t, at, r.Sweeps[k].Layout)
		assert.Equal(t, at, r.Chains[k].Layout)
	}
	require.Len(t, r.Sweeps[0].Points, 25)
	require.Len(t, r.Sweeps[1].Points, 10, "a line beside it, without booms: every third speed, and that of the table")
	assert.Empty(t, r.Sweeps[1].Booms)
	assert.Equal(t, [2]bool{false, true}, [2]bool{r.Sweeps[0].Plain, r.Sweeps[1].Plain})
	for k, p := range slices.DeleteFunc(slices.Clone(r.Sweeps[1].Points), func(p PageSpeed) bool { return p.SpeedRPM == 1900 }) {
		assert.Equal(t, r.Sweeps[0].Points[3*k].SpeedRPM, p.SpeedRPM)
	}
	for _, s := range r.Sweeps {
		k := slices.IndexFunc(s.Points, func(p PageSpeed) bool { return p.SpeedRPM == 1900 })
		require.GreaterOrEqual(t, k, 0, "the engine runs at 1900 rpm")
		for j, h := range r.Layouts[s.Layout].Heard {
			assert.InDelta(t, *h.LevelDBA, *s.Points[k].LevelDBA[j], 0.1, "chart and table of %s", r.Layouts[s.Layout].Name)
		}
		assert.Contains(t, strings.Join(s.Notes, " "), "Readings that count: 4", "how readings reach the curve")
	}
	assert.Equal(t, d.Advice.Text, strings.Join(r.Advice, " "), "the page advises in the words of every answer")
	require.NotEmpty(t, r.Helps.Changes)
	assert.Equal(t, d.Advice.Helps[0].Change, r.Helps.Changes[0].Change)
	for j, l := range r.Listeners {
		assert.InDelta(t, *d.Advice.Helps[0].DB[l.Name], r.Helps.Changes[0].DB[j], 1e-5)
	}
	for _, l := range r.Layouts {
		assert.Equal(t, l.Verdict == VerdictAsk, len(l.Questions) > 0, l.Name)
		assert.Equal(t, l.Refused, l.RefusedFor != "", l.Name)
	}
}

// A reading narrows as regression does: of the answer itself it leaves v sd²/(v + sd²), of what has nothing in common
// with it all of v; one that was taken is not asked for again.
func TestMeasuresNarrowTheAnswer(t *testing.T) {
	w, _ := governed(t, demoWith(t, "three-quotes"), readings.Options{Ignore: true})
	r := &Page{Chosen: 0, Today: -1, Layouts: []PageLayout{{Name: w.Predictions[0].Layout.Name}}}
	n := len(w.sample.Levels[0][0])
	answer, other := make([]float64, n), make([]float64, n)
	for d := range answer {
		answer[d], other[d] = 4*math.Cos(math.Pi*float64(d)), 4*math.Cos(math.Pi*float64(d/2)) // ±4 dB, of two rhythms
	}
	w.sample = draws.Sample{Levels: [][][]float64{{answer, other, answer}}}
	w.Predictions = w.Predictions[:1]
	w.pageMeasure(r)
	require.Len(t, r.Measure, 3)
	v := r.Measure[0].Before * r.Measure[0].Before
	assert.InDelta(t, 16, v, 0.1)
	left := math.Sqrt(v * readings.PhoneSD * readings.PhoneSD / (v + readings.PhoneSD*readings.PhoneSD))
	assert.InDelta(t, left, r.Measure[0].After, 1e-9)
	assert.InDelta(t, left, r.Measure[1].After, 1e-9, "the most telling first")
	assert.Equal(t, 1, r.Measure[2].Listener)
	assert.InDelta(t, r.Measure[2].Before, r.Measure[2].After, 1e-3)
}
