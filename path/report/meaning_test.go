package report

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/source/spectrum"
)

// Every row of the criteria that names a place or a day's noise stands in what is said at such a place.
func TestEveryCriterionIsSaid(t *testing.T) {
	day := hours(99) + dayAsks()
	for _, c := range spectrum.Criteria("exposure") {
		assert.Contains(t, day, fmt.Sprintf("%.0f", c.Limit), c.Name)
		assert.True(t, strings.Contains(day, c.Name) || strings.Contains(day, c.Source), c.Name)
	}
	for _, kind := range []string{"place", "harbour", "state test"} {
		for _, c := range spectrum.Criteria(kind) {
			for _, word := range c.Words {
				text := compared(c.Limit-1, guidance(path.Listener{Name: "the " + word}))
				assert.Contains(t, text, fmt.Sprintf("%.0f", c.Limit), "%s at %s", c.Name, word)
				assert.Contains(t, text, c.Name)
			}
		}
	}
}

// Levels by hand: 85 dB(A) reaches 80 in 8 h / 10^0.5 = 2.5 h and 85 in 8 h; 87 in 12.7 h.
func TestHoursOfALevel(t *testing.T) {
	text := hours(85)
	assert.True(t, strings.HasPrefix(text, "3 h a day there reach the lower action value for hearing (80 dB(A) over 8 h), 8 h the upper action value"), text)
	assert.Contains(t, text, "13 h the exposure limit (87)")
	assert.Equal(t, "All day there keeps below the lower action value for hearing.", hours(75))
	assert.Contains(t, compared(66, guidance(path.Listener{Name: "helm"})), "1 dB over the 65 dB(A) for a wheelhouse")
}

// Sentences that differ in figures only are one, by hand: ranges from the least to the most, each with its layouts.
func TestSentencesAreSaidTogether(t *testing.T) {
	all := Together([][]string{{"Heard at 0.9 m (rule).", "It keeps 60."}, {"Heard at 0.4 m (rule).", "Loud."}, {"Heard at 12 m (rule).", "It keeps 60."}})
	assert.Equal(t, []Shared{{"Heard at 0.4-12 m (rule).", []int{0, 1, 2}}, {"It keeps 60.", []int{0, 2}}, {"Loud.", []int{1}}}, all)
	assert.Empty(t, Together([][]string{nil, {}}))
	var quiet, loud spectrum.Bands
	for b := range quiet {
		quiet[b], loud[b] = 50, 54
	}
	one, other := talk(quiet, 57, form.Units{}), talk(loud, 61, form.Units{})
	assert.NotEqual(t, one, other)
	assert.Len(t, Together([][]string{{one}, {other}}), 1, one+other)
}
