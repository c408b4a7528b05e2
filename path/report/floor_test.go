package report

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report/form"
	"hushwake/path/study/passage"
)

// The comparison tells the floor and the beats as the passage does.
func TestFloorInTheComparison(t *testing.T) {
	w := comparison(t, "everything")
	d := w.Document().(Compare)
	require.Len(t, d.Floor, len(w.Boat.Listeners))
	for j, f := range d.Floor {
		for i := range d.Layouts {
			assert.LessOrEqual(t, *f.LevelDBA, *d.Layouts[i].Listeners[j].LevelDBA+1e-3, f.Listener)
		}
		low, high := *f.LevelDBA, *f.LevelDBA
		for _, l := range f.Layouts {
			low, high = min(low, *l.FloorDBA), max(high, *l.FloorDBA)
		}
		span := fmt.Sprintf("leaves %.0f to %.0f dB(A) at %s", low, high, f.Listener)
		if math.Round(low) == math.Round(high) {
			span = fmt.Sprintf("leaves %.0f dB(A) at %s", low, f.Listener)
		}
		assert.Contains(t, f.Text, span)
		assert.Contains(t, flat(w.Text(form.Units{})), strings.TrimSuffix(strings.TrimPrefix(f.Text, "Even a perfect silencer leaves "), "."))
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
	assert.InDelta(t, 11.4, *NewBeat(b).Swing, 1e-9)
	masked := MaskedWords([]passage.Masked{{Layout: "dry", Engine: "main", Order: 3, Frequency: 90, When: "6 kn under sail"}, {Layout: "dry", Engine: "main", Order: 6, Frequency: 180}})
	assert.Equal(t, []string{`with "dry": of main not heard while 6 kn under sail: order 3 (90 Hz), 6 (180 Hz)`}, masked)
}
