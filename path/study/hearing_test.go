package study

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// speechBands has the given PSIL and a dB(A) about 7 over it, as the trade reckons.
func speechBands(psil float64) spectrum.Bands {
	return spectrum.Bands{20, 12, 10, 6, 3, 0, -3, -6, -10}.Shift(psil)
}

func TestHearingSentences(t *testing.T) {
	limit := 70.0
	say := func(psil, hours float64) string {
		return strings.Join(Hearing(path.Heard{Bands: speechBands(psil), Listener: path.Listener{Hours: hours, Limit: &limit}}, f(.25)), "\n")
	}
	quiet := say(40, 0)
	require.Contains(t, quiet, "right across")
	require.Contains(t, quiet, "no danger")
	require.Contains(t, quiet, "keeps the limit of 70")
	require.Contains(t, quiet, "25 %")
	loud := say(75, 10)
	require.Contains(t, loud, "raised voice")
	require.Contains(t, loud, "breaks the limit")
	require.Contains(t, loud, "over 80")
	// 20 cm at PSIL 73 in a normal voice: 59.1 - 73 = -13.9 dB.
	require.Contains(t, talking(speechBands(73)), "within 0.2 m")
	require.Contains(t, talking(speechBands(90)), "alarms")
	require.Contains(t, harmless(83, 0), "4.0 hours") // 3 dB more, half the time
	require.Contains(t, harmless(95, 0), "15 minutes")
	require.Contains(t, harmless(90, 8), "limit of 87")
	low := path.Heard{Bands: spectrum.Bands{95, 85, 70, 60, 50, 45, 40, 35, 30}}
	require.Contains(t, strings.Join(Hearing(low, nil), " "), "rumble")
}
