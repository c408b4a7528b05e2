package voyage

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/boatfiletest"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/reporttest"
	"hushwake/path/study/passage"
)

// voyages is a demo with its passages, by few draws.
func voyages(t *testing.T, name string, layouts int) *Voyages {
	t.Helper()
	b := boatfiletest.Demo(t, name)
	w, err := NewVoyages(reporttest.Known(t, b, 100), b.Layouts[:layouts])
	require.NoError(t, err)
	return w
}

// said is all that a text says.
func said(t *form.Text) string {
	var all []string
	for _, b := range t.Blocks {
		if all = append(all, b.First+b.Words); b.Table != nil {
			for _, r := range b.Table.Rows {
				all = append(all, strings.Join(r, " "))
			}
		}
	}
	return strings.Join(all, "\n")
}

// Document, sheet and text of a passage hold the same figures; the year is its times; the mean of the day lies 4.77 dB
// under the day of eight hours.
func TestPassageInItsForms(t *testing.T) {
	w := voyages(t, "everything", 2)
	d := w.Document().(Passages)
	require.Len(t, d.Passages, 2)
	require.Empty(t, d.Passages[0].Cycle)
	require.Contains(t, d.Passages[1].Cycle, "ISO 8178-4")
	require.Equal(t, 72.0, *d.Passages[0].Hours)
	l := d.Passages[0].Layouts[0]
	require.InDelta(t, 4**l.FuelLitres, *l.LitresYear, 1e-3)
	require.InDelta(t, 1.7**l.FuelLitres, *l.FuelPrice, 1e-3)
	require.InDelta(t, *l.Places[0].ExposureDBA-4.771, *l.Places[0].MeanDBA, 2e-3)
	require.InDelta(t, 1700.0/60/2.5*4, *l.Legs[0].Engines[0].Blade, 1e-3)
	require.Nil(t, l.Legs[3].Engines[0].Shaft)
	require.Nil(t, d.Passages[1].Layouts[0].LitresYear, "how often is not stated")
	sheet := w.Sheet()
	require.Equal(t, "verdict", sheet[0][len(sheet[0])-1])
	require.Equal(t, l.Verdict, sheet[1][len(sheet[0])-1])
	require.Len(t, sheet, 1+2*4+2*3, "two passages, two layouts, three places; the watch of the first: in the second he would rest where he stands it")
	text := said(w.Text(form.Units{}))
	for _, words := range []string{"delivery: 3 days", "by test cycle: 12 h", "cycle E3", "4 times a year", "The shaft of main turns at 11.3 Hz with blades at 45.3 Hz", "Even a perfect silencer leaves",
		"main at 1700 rpm and 80 kW for 8 h", form.Decibel(w.all[0].Layouts[0].Places[0].Exposure)} {
		assert.Contains(t, text, words)
	}
	assert.NotContains(t, text, "NaN")
	assert.Contains(t, said(w.Text(reporttest.Imperial)), "US gal")
}

// What is refused or has to be asked about is marked and never praised;
// of the latter there is no firm figure, and its span holds what its sheets may mean.
func TestPassagePraisesNothingRefused(t *testing.T) {
	w := voyages(t, "three-quotes", 5)
	layouts := w.Document().(Passages).Passages[0].Layouts
	verdicts := form.Each(layouts, func(l PassageLayout) string { return l.Verdict })
	require.Equal(t, []string{report.VerdictAsk, report.VerdictOver, report.VerdictRefused}, verdicts[1:4])
	ask := layouts[1]
	require.Nil(t, ask.FuelLitres)
	require.Empty(t, ask.Cruising)
	for j, e := range append(ask.Places, *ask.Watch) {
		require.Nil(t, e.ExposureDBA)
		require.Nil(t, e.MeanDBA)
		require.Less(t, *e.LowDBA, *e.HighDBA)
		if j < len(ask.Places) {
			require.LessOrEqual(t, *e.HighDBA-*e.LowDBA, 30.0)
		}
	}
	text := said(w.Text(form.Units{}))
	assert.Contains(t, text, "new silencer + offer A\nASK FIRST ? (")
	assert.Contains(t, text, "new silencer + offer C\nREFUSED ")
	assert.Contains(t, text, "REFUSED whatever the level")
	assert.NotContains(t, text, "OVER LIMIT", "no row has that mark")
	assert.Contains(t, text, "ASK FIRST: its sheets")

	for i := range w.all[0].Layouts[3].Places {
		w.all[0].Layouts[3].Places[i].Exposure = 1
	}
	w.all[0].Layouts[3].Watch.Exposure = 1
	text = said(w.Text(form.Units{}))
	assert.Regexp(t, `the quietest that may be taken, "(new silencer \+ offer B|offer B in a thinner jacket)"`, text, "the refused one is the quieter")
}

// A day beside the action values, with its doubt as printed.
func TestStandingOfADay(t *testing.T) {
	for _, c := range []struct {
		day  passage.Place
		want string
	}{
		{passage.Place{Exposure: 70, Low: 65, High: 79.4}, "under every action value"},
		{passage.Place{Exposure: 79.6, Low: 77, High: 82}, "may reach the 80 of the lower action value"},
		{passage.Place{Exposure: 78, Low: 77, High: 79.5}, "may reach the 80 of the lower action value"},
		{passage.Place{Exposure: 81, Low: 79, High: 83}, "likely over the 80 of the lower action value"},
		{passage.Place{Exposure: 83, Low: 81, High: 86}, "over the 80 of the lower action value, may reach the 85 of the upper action value"},
		{passage.Place{Exposure: math.NaN(), Low: 62, High: 79}, "under every action value"},
	} {
		got := standing(c.day)
		assert.True(t, strings.HasPrefix(got, c.want), "%s for %+v", got, c.day)
		assert.Equal(t, strings.HasPrefix(c.want, "under"), strings.HasPrefix(got, "under"))
	}
}

// Amounts are rounded once, to three figures of the unit that is printed; one of a thing has no plural.
func TestAmountsOfAPassage(t *testing.T) {
	assert.Equal(t, "1400 US gal", fuelText(5.31, reporttest.Imperial))
	assert.Equal(t, "2810 US gal", fuelText(2*5.31, reporttest.Imperial))
	assert.Equal(t, "5310 L", fuelText(5.3096, form.Units{}))
	assert.Equal(t, "0.312 US gal", fuelText(1.18e-3, reporttest.Imperial))
	assert.Equal(t, "2.13 L", fuelText(2.1349e-3, form.Units{}))
	assert.Equal(t, "-", fuelText(math.NaN(), reporttest.Imperial))
	assert.Equal(t, []string{"1 day", "9 days", "0.5 days"}, []string{counted(1, "day"), counted(9, "day"), counted(0.5, "day")})
}

// Which profile rules is said where the file has two; the limits of 24 h stand beside the level over 24 h; a watch whose
// middle lies over both places is told of.
func TestWhatAPassageSays(t *testing.T) {
	w := voyages(t, "everything", 2)
	text := said(w.Text(form.Units{}))
	assert.Contains(t, text, "Here the legs and watches of 'passages' rule")
	assert.Contains(t, text, "Averaged over the 24 h of the day it is 4.8 dB lower: of that, 82 (")
	day := w.all[0].Layouts[0].Watch
	assert.Contains(t, text, fmt.Sprintf("averaged over 24 h %.0f", day.Exposure-4.771))
	assert.NotContains(t, text, "On watch may lie over both places")
	day.Exposure = 150
	assert.Contains(t, said(w.Text(form.Units{})), "On watch may lie over both places")
	w.boat.Passages = nil
	assert.NotContains(t, said(w.Text(form.Units{})), "Here the legs")
}

// A knot is a mile of 1852 m in an hour, by definition.
func TestKnot(t *testing.T) { assert.InDelta(t, 0.514444, knot, 1e-6) }

// The quietest stands beside what it is held against, of the same measure; of best speeds the place comes first.
func TestTheQuietestStandsBesideItsOwnMeasure(t *testing.T) {
	text := said(voyages(t, "dry-stack", 6).Text(form.Units{}))
	assert.Regexp(t, `"as found" makes (\d+) \([^)]*\) dB\(A\),.*?; the quietest that may be taken, "[^"]*", makes (\d+)[^;]*; averaged over 24 h \d+, with the quietest \d+\.`, text)
	assert.Regexp(t, `At helm \([0-9.]+ dB\)[^.]*[0-9.]+ dB\)? a mile with "|At [a-z ]+ \([0-9.]+ dB\)`, text)
	assert.NotContains(t, text, "A mile with")
}
