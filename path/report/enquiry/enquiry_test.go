package enquiry

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

func wanted(t *testing.T) (*Enquiry, *readings.Known) {
	t.Helper()
	return asked(t, "three-quotes", 1, 4)
}

// asked is the enquiry for an element of a layout for the first listener, both numbered from one.
func asked(t *testing.T, file string, layout, element int) (*Enquiry, *readings.Known) {
	t.Helper()
	b, err := boatfile.LoadFile("../../../testdata/" + file + ".yaml")
	require.NoError(t, err)
	k, err := readings.Know(b, readings.Options{Options: draws.Options{N: 400}})
	require.NoError(t, err)
	l := b.Layouts[layout-1]
	w, err := NewEnquiry(k, parts.Chosen{Layout: l, Exhaust: 0, At: element - 1, Element: l.Exhausts[0].Line.Elements[element-1]}, 0)
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
	none, err := w.withLoss(k, w.loss)
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

// A drawn part that keeps the limit is asked for as it is: with its losses the level is that of the layout as drawn.
func TestAPartThatKeepsTheLimitIsAskedForAsDrawn(t *testing.T) {
	for _, c := range []struct {
		file            string
		layout, element int
	}{{"dry-stack", 6, 4}, {"dry-stack", 8, 4}, {"three-quotes", 3, 4}} {
		w, _ := asked(t, c.file, c.layout, c.element)
		limit := *w.boat.Listeners[0].Limit
		name := c.file + " " + parts.NameOf(w.at.Element)
		require.True(t, w.drawn, name)
		require.Greater(t, w.loss.Total(), 10.0, "%s: an empty pipe is no silencer", name)
		require.InDelta(t, w.Today.Level, w.fitted.Level, 1, "%s: losses are rounded to the dB", name)
		require.Less(t, w.fitted.Level, limit, name)
		require.Less(t, w.fitted.Level, w.bare.Level-1, name)
		text := w.Markdown(form.Units{})
		require.Equal(t, w.bare.Level <= limit, strings.Contains(text, "is kept with plain pipe too"), name)
		require.NotContains(t, text, "as the line stands", name)
		require.Contains(t, text, "with plain pipe in its place it would be "+form.Decibel(w.bare.Level)+" dB(A)", name)
	}
}

// The losses of an offer come back as it states them.
func TestAnOfferIsAskedForWhatItStates(t *testing.T) {
	w, _ := asked(t, "three-quotes", 3, 4)
	stated := *w.at.Element.(*silencer.Given).InsertionLoss
	for i := 1; i < spectrum.N-1; i++ {
		require.InDelta(t, stated[i], w.loss[i], 2.5, "%g Hz: flow noise at the outlet takes a little", spectrum.Nominal[i])
	}
	require.Contains(t, w.Markdown(form.Units{}), "may miss its own figures")
}

// What stays with a perfect part in its place has the shell of the drawn part, not that of a bare pipe: it isn't over a limit
// that other layouts of the boat keep with ease.
func TestOtherNoiseIsThatOfAPerfectPart(t *testing.T) {
	w, k := asked(t, "dry-stack", 1, 6)
	limit := *w.boat.Listeners[0].Limit
	perfect, err := w.withLoss(k, spectrum.Fill(perfectLoss))
	require.NoError(t, err)
	require.Less(t, perfect.Level, k.Spread().Layouts[5].Listeners[0].Level+1, "two stages can't do better than a perfect part")
	require.Contains(t, w.why, "below the limit of 70 dB(A)")
	require.LessOrEqual(t, w.fitted.Level, limit+0.5)
	// less shell, less noise; a shell in the line that stands is heard
	w, k = asked(t, "dry-stack", 6, 4)
	with, err := w.withLoss(k, spectrum.Fill(perfectLoss))
	require.NoError(t, err)
	require.NotEmpty(t, w.shell(k)["helm"])
	w.running.Name = "no such part"
	require.Empty(t, w.shell(k)["helm"])
	without, err := w.withLoss(k, spectrum.Fill(perfectLoss))
	require.NoError(t, err)
	require.Less(t, without.Level, with.Level)
}

// Where other noise is over the limit whatever is bought, the drawn part is asked for, not an empty pipe that makes it louder.
func TestOutOfReachOfAnySilencerTheDrawnPartIsAskedFor(t *testing.T) {
	w, _ := asked(t, "generator-box", 4, 5)
	require.True(t, w.drawn)
	require.Contains(t, w.why, "isn't kept")
	require.InDelta(t, w.Today.Level, w.fitted.Level, 1.5)
}
