package report

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/offers"
	"hushwake/source/spectrum"
	"hushwake/source/spectrum/audibility"
)

// apart is a comparison whose levels and predictions a test may change.
func apart(t *testing.T, name string) *Comparison {
	w := *comparison(t, name)
	w.Predictions, w.Spread.Layouts = slices.Clone(w.Predictions), slices.Clone(w.Spread.Layouts)
	for i := range w.Predictions {
		w.Predictions[i].Listeners, w.Spread.Layouts[i].Listeners = slices.Clone(w.Predictions[i].Listeners), slices.Clone(w.Spread.Layouts[i].Listeners)
	}
	w.Ears = func() [][]path.Ear { return path.Ears(w.Predictions) } // anew each time, for it changes
	return &w
}

// What the document says of the ear is what the prediction's lines give, beside the layout that is on board.
func TestTheEarOfTheDocument(t *testing.T) {
	w := comparison(t, "dry-stack")
	d := w.Document().(Compare)
	today := slices.IndexFunc(d.Layouts, func(l Layout) bool { return l.Name == w.today(0).Layout })
	require.GreaterOrEqual(t, today, 0)
	said := 0
	for i, l := range d.Layouts {
		for j, h := range l.Listeners {
			own := w.Predictions[i].Listeners[j].Ear()
			require.NotNil(t, h.Ear)
			require.InDelta(t, own.Sone, *h.Ear.Sone, 1e-3)
			require.Equal(t, own.Tone.Audibility > 0, h.Ear.Tone != nil)
			if h.Ear.Tone != nil {
				said++
				require.InDelta(t, own.Tone.Audibility, *h.Ear.Tone.Audibility, 1e-3)
				require.Contains(t, h.Ear.Text, "a tone stands out at ")
				orders, _ := w.Predictions[i].Listeners[j].Lines()
				require.True(t, slices.ContainsFunc(orders, func(l path.Line) bool { return math.Abs(l.Frequency-*h.Ear.Tone.Frequency) < 0.06 }))
			}
			if i == today {
				require.Empty(t, h.Ear.Of)
				continue
			}
			require.Equal(t, w.today(0).Layout, h.Ear.Of)
			require.InDelta(t, own.Sone/w.Predictions[today].Listeners[j].Ear().Sone, *h.Ear.Times, 1e-5)
			require.InDelta(t, math.Pow(2, (*h.LevelDBA-*d.Layouts[today].Listeners[j].LevelDBA)/10), *h.Ear.Rule, 1e-3)
		}
	}
	assert.Positive(t, said)
	taken := slices.Index(w.layoutNames(), *d.Advice.Layout)
	assert.Contains(t, d.Advice.Text, fmt.Sprintf(", %.2g times by sones)", *d.Layouts[taken].Listeners[w.Listener].Ear.Times), "one rule in the answer and in the table")
}

// A layout that reads the same without the drone is told on the one screen, and only then.
func TestTheEarChangesTheChoice(t *testing.T) {
	w := apart(t, "dry-stack")
	at := func(name string) int { return slices.Index(w.layoutNames(), name) }
	drone, quiet := at("wet with lift chamber"), at("two stages, reactive then absorptive")
	require.True(t, drones(w.ear(drone, 0)))
	require.False(t, drones(w.ear(quiet, 0)))
	w.Spread.Layouts[quiet].Listeners[0].Level = w.Spread.Layouts[drone].Listeners[0].Level - 1.1
	assert.Empty(t, w.earChanges(drone), "it is quieter anyway")
	w.Spread.Layouts[quiet].Listeners[0].Level += 0.2
	assert.Contains(t, w.earChanges(drone), `"two stages, reactive then absorptive" reads the same at helm without the drone at 170 Hz`)
	assert.Empty(t, w.earChanges(quiet))
	w.Predictions[quiet].Refused = true
	assert.Empty(t, w.earChanges(drone), "what is refused is no choice")
	w.Spread.Layouts[drone].Listeners[0].Level = math.NaN()
	assert.Empty(t, w.ear(drone, 0).Text, "what can't be judged has no ear")
}

func TestOffersOfOneLevelMayDiffer(t *testing.T) {
	w := apart(t, "three-quotes")
	all := w.offers()
	var named []string
	for _, o := range all {
		if o.Level != nil {
			named = append(named, o.Name)
		}
	}
	require.Len(t, named, 2)
	texts := w.offerEars(all)
	require.Len(t, texts, 2, "both drone and differ in level: nothing more to say")
	a, b := w.layoutOf(all, named[0]), w.layoutOf(all, named[1])
	w.Spread.Layouts[b].Listeners[0].Level = w.Spread.Layouts[a].Listeners[0].Level
	require.Len(t, w.offerEars(all), 2)
	w.Predictions[b].Listeners[0] = w.Predictions[b].Listeners[2] // where nothing stands out
	texts = w.offerEars(all)
	require.Len(t, texts, 3)
	assert.Contains(t, texts[2], "read the same there, but "+named[0]+" drones at ")
}

// layoutOf is the layout that an offer makes.
func (w *Comparison) layoutOf(all []offers.Judged, name string) int {
	i := slices.IndexFunc(all, func(o offers.Judged) bool { return o.Name == name })
	return slices.Index(w.layoutNames(), all[i].Layout)
}

func TestWordsOfTheEar(t *testing.T) {
	assert.Equal(t, "no tone stands out", parts.ToneWords(audibility.Tone{}))
	assert.Equal(t, "a tone stands out at 170 Hz, a drone", parts.ToneWords(audibility.Tone{Frequency: 170.2, Audibility: 6}))
	assert.Contains(t, parts.ToneWords(audibility.Tone{Frequency: 28, Audibility: 2}), "audible (under the 50 Hz")
	assert.Equal(t, "170 Hz drone, 0.5", earCell(Ear{Text: "x", Tone: &parts.Tone{Frequency: form.Num(170), Word: "drone"}, Sone: form.Num(3), Times: form.Num(0.5), Rule: form.Num(0.4)}))
	assert.Equal(t, "no tone, beyond ISO 532-1", earCell(Ear{Text: "x"}))
	assert.Equal(t, "?", earCell(Ear{}))
}

// Beyond the method there is no loudness, and one line says why.
func TestLoudnessBeyondItsMethod(t *testing.T) {
	w := apart(t, "dry-stack")
	h := w.Predictions[0].Listeners[0]
	h.Move(func(path.Route) spectrum.Bands { return spectrum.Fill(40) })
	w.Predictions[0].Listeners[0] = h
	e := w.ear(0, 0)
	assert.Nil(t, e.Sone)
	assert.Contains(t, e.Text, "reaches to 120 dB below 300 Hz; compare by dB(A) instead")
	assert.NotContains(t, e.Text, "\n")
	assert.Contains(t, earCell(e), "beyond ISO 532-1")
	for i := range w.Predictions {
		assert.Nil(t, w.ear(i, 0).Times, "nothing is told beside what has no loudness")
	}
}
