package enquiry

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

func wanted(t *testing.T) (*Enquiry, *readings.Known) {
	t.Helper()
	b, err := boatfile.LoadFile("../../../testdata/three-quotes.yaml")
	require.NoError(t, err)
	k, err := readings.Know(b, readings.Options{Options: draws.Options{N: 400}})
	require.NoError(t, err)
	at := parts.Chosen{Layout: b.Layouts[0], Exhaust: 0, At: 3, Element: b.Layouts[0].Exhausts[0].Line.Elements[3]}
	w, err := NewEnquiry(k, at, 0)
	require.NoError(t, err)
	return w, k
}

// A maker passes by bringing the losses that he was asked for, not by changing nothing.
func TestTheTestAfterFittingIsThatOfTheWantedLosses(t *testing.T) {
	w, k := wanted(t)
	limit := *w.boat.Listeners[0].Limit
	require.Less(t, w.fitted.Level, limit)
	require.InDelta(t, limit-otherNoise, w.fitted.Level, 1.5, "losses are rounded up to the dB; the other noise adds little")
	require.Greater(t, w.Today.Level-w.fitted.Level, math.Hypot((w.fitted.High-w.fitted.Low)/2, 2), "today's level fails the test")
	text := w.Markdown(form.Units{})
	require.Contains(t, text, "with the wanted losses in place we expect "+form.Decibel(w.fitted.Level)+" dB(A)")
	require.Contains(t, text, "as the line stands it is "+form.Decibel(w.Today.Level)+" dB(A)")
	// no loss wanted is the line with plain pipe
	w.loss = spectrum.Bands{}
	none, err := w.withWanted(k)
	require.NoError(t, err)
	require.InDelta(t, w.without.Listeners[0].DBA(), none.Level, 1)
}

// The room that the file holds for another silencer in the same place is that of the enquiry.
func TestClearSpaceIsThatOfTheFile(t *testing.T) {
	w, _ := wanted(t)
	room, of := w.clearSpace()
	require.InDeltaSlice(t, []float64{0.41, 0.41, 2.05}, room, 1e-9)
	require.Contains(t, of, "offer A")
	w.at.At = 1
	room, _ = w.clearSpace()
	require.Empty(t, room)
}
