package report

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/study/passage"
)

// voyages is a demo with its passages, by few draws.
func voyages(t *testing.T, name string, layouts int) *Voyages {
	t.Helper()
	b, err := boatfile.LoadFile("../../testdata/" + name + ".yaml")
	require.NoError(t, err)
	w, err := NewVoyages(known(t, b), b.Layouts[:layouts])
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
	require.Len(t, sheet, 1+2*2*4, "two passages, two layouts, three places and the watch")
	text := said(w.Text(form.Units{}))
	for _, words := range []string{"delivery: 3 days", "by test cycle: 12 h", "cycle E3", "4 times a year", "The shaft of main turns at 11.3 Hz with blades at 45.3 Hz", "Even a perfect silencer leaves",
		"main at 1700 rpm and 80 kW for 8 h", form.Decibel(w.all[0].Layouts[0].Places[0].Exposure)} {
		assert.Contains(t, text, words)
	}
	assert.NotContains(t, text, "NaN")
	assert.Contains(t, said(w.Text(imperial)), "US gal")
}

// The comparison tells the floor and the beats as the passage does, and as the page's data do.
func TestFloorInTheComparison(t *testing.T) {
	w := comparison(t, "everything")
	d := w.Document().(Compare)
	p, err := w.Page(form.Units{})
	require.NoError(t, err)
	require.Equal(t, d.Floor, p.Floor)
	require.Equal(t, d.Beats, p.Beats)
	require.Len(t, d.Floor, len(w.Boat.Listeners))
	for j, f := range d.Floor {
		for i := range d.Layouts {
			assert.LessOrEqual(t, *f.LevelDBA, *d.Layouts[i].Listeners[j].LevelDBA+1e-3, f.Listener)
		}
		assert.Contains(t, f.Text, fmt.Sprintf("leaves %.0f dB(A) at %s", *f.LevelDBA, f.Listener))
		assert.Contains(t, said(w.Text(form.Units{})), strings.TrimSuffix(strings.TrimPrefix(f.Text, "Even a perfect silencer leaves "), "."))
	}
	require.NotEmpty(t, d.Beats)
	assert.Contains(t, d.Beats[0].Text, "phase is chance")
}

// A beat in words: its frequency and swing, and what parts the engines.
func TestBeatInWords(t *testing.T) {
	b := passage.Beat{Engines: [2]string{"port", "starboard"}, Order: 3, Other: 3, Frequency: 0.15, Line: 90, Place: "helm", Layout: "dry", Low: 60, High: 71.4, Part: 200}
	assert.Equal(t, `port and starboard: order 3 beats 0.15 times a second at 90 Hz, 60 to 71 dB(A) at helm with "dry". Synchronise them; or part them by 200 rpm or more.`, beatText(b))
	b.Together = true
	assert.Contains(t, beatText(b), "phase is chance")
	b.Other, b.Part, b.Together = 1.5, 0, false
	assert.Contains(t, beatText(b), "order 3 of the first and 1.5 of the second beats")
	assert.Contains(t, beatText(b), "another speed of either")
	assert.InDelta(t, 11.4, *newBeat(b).Swing, 1e-9)
	masked := maskedWords([]passage.Masked{{Layout: "dry", Engine: "main", Order: 3, Frequency: 90, When: "6 kn under sail"}, {Layout: "dry", Engine: "main", Order: 6, Frequency: 180}})
	assert.Equal(t, []string{`with "dry": of main not heard while 6 kn under sail: order 3 (90 Hz), 6 (180 Hz)`}, masked)
}
