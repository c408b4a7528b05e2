package scene_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/silencer/safety"
)

// Every layout is set beside the figure for new craft of its power, a generator also beside harbour figures; both
// are notes that name their source and never refuse.
func TestNeighbours(t *testing.T) {
	note := func(text, code string) (found []safety.Finding) {
		b := read(t, text)
		for _, f := range predict(t, b, b.Layouts[0]).Findings {
			if f.Code == code {
				found = append(found, f)
			}
		}
		return found
	}
	for kw, limit := range map[int]int{9: 67, 33: 72, 40: 72, 90: 75} {
		text := strings.Replace(small(1, ""), "power: 40 kW", fmt.Sprintf("power: %d kW", kw), 1)
		f := note(text, "PASS-BY")
		require.Len(t, f, 1)
		require.Contains(t, f[0].Text, fmt.Sprintf("held to %d dB(A)", limit))
		require.Contains(t, f[0].Source, "guidance")
		require.False(t, f[0].Refuse)
		require.Empty(t, note(text, "HARBOUR"))
	}
	set := note(small(1, "generator: {power: 6 kW, cooling: water}"), "HARBOUR")
	require.Len(t, set, 1)
	require.Contains(t, set[0].Text, "in dB(A): 60 for a generator in a park, 55 for a next boat by day")
	require.Empty(t, note(small(1, "generator: {power: 6 kW, cooling: water}"), "PASS-BY"))
}

// Abeam at 25 m over water the level is the sound power less 20 lg r + 11, 3 dB for the water and the pattern.
func TestPassByLevelIsThatOfAListenerThere(t *testing.T) {
	text := strings.Replace(small(1, ""), "quay: {in: outside, at: [-30 m, 8 m, 2 m]}", "quay: {in: outside, at: [0 m, 25.4 m, 3.5 m]}\n  other: {in: outside, at: [0 m, -24.6 m, 3.5 m]}", 1)
	b := read(t, text)
	p := predict(t, b, b.Layouts[0])
	want := max(at(t, p, "quay").DBA(), at(t, p, "other").DBA())
	for _, f := range p.Findings {
		if f.Code == "PASS-BY" {
			require.Contains(t, f.Text, fmt.Sprintf(" %.0f dB(A) come out", want))
			return
		}
	}
	t.Fatal("no pass-by note")
}
