package report

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/study/readings"
	"hushwake/testdata/turns"
)

// someDraws are as many as a quick look takes, or all where that is wanted: for tests that look at no band.
func someDraws() (o readings.Options) {
	if !turns.All() {
		o.N = readings.QuickDraws
	}
	return o
}

// pageOfDemo is the page of a demo, and what is known of it; ahead tells whether its sweeps are begun beside the draws.
func pageOfDemo(t *testing.T, name string, ahead bool) (text []byte, w *Comparison, guessed *path.Layout) {
	t.Helper()
	b, o, last := demoWith(t, name), someDraws(), readings.Point{}
	if ahead {
		begun := Ahead(b, b.Layouts, 0)
		o.Begun = func(k *readings.Known) {
			guessed = guess(k, b, b.Layouts, 0)
			begun(k)
			over := dutiesOf([]*path.Layout{guessed})
			require.NotNil(t, k.Foreseen(readings.Point{Boat: b, Layout: guessed, At: over.At[1]}), "a point of the page is promised; now the page works it out")
			last = readings.Point{Boat: b, Layout: guessed, At: over.At[len(over.At)-1]}
		}
	}
	k, err := Know(b, o)
	require.NoError(t, err)
	w, err = NewComparison(b, b.Layouts, 0, k)
	require.NoError(t, err)
	r, err := w.Page(form.Units{})
	require.NoError(t, err)
	require.Nil(t, k.Foreseen(last), "the page took it")
	text, err = json.Marshal(r)
	require.NoError(t, err)
	return text, w, guessed
}

// A page is the same to the byte whether its sweeps were begun before the draws or not. A run takes one of the demos.
func TestAheadChangesNothing(t *testing.T) {
	names := []string{"generator-box", "three-quotes", "everything"}
	for i := range turns.Of(t, len(names), len(names)) {
		name := names[i]
		without, w, _ := pageOfDemo(t, name, false)
		with, _, guessed := pageOfDemo(t, name, true)
		assert.Equal(t, string(without), string(with), name)
		if name != "everything" { // there nothing is advised, for a reading that is odd: the guess cannot know
			assert.Equal(t, w.advise().Layout, guessed.Name, "%s: what the predictions advise is what the page tells of", name)
		}
	}
}

// A wrong guess costs time alone: the sweeps of the page are those of the layouts that it tells of, and nothing else is
// kept of what was promised.
func TestAWrongGuessIsForgotten(t *testing.T) {
	b := demoWith(t, "generator-box")
	k, err := Know(b, someDraws())
	require.NoError(t, err)
	w, err := NewComparison(b, b.Layouts, 0, k)
	require.NoError(t, err)
	right, err := w.Page(form.Units{})
	require.NoError(t, err)
	wrong, detailed := b.Layouts[len(b.Layouts)-1], right.InDetail()
	for _, at := range detailed {
		require.NotEqual(t, wrong.Name, right.Layouts[at].Name)
	}
	all := []readings.Point{{Boat: b, Layout: wrong, At: 1}}
	asked := 0
	work := k.Foresee(all, func(readings.Point) (path.Prediction, error) {
		asked++
		return path.Prediction{}, nil
	})
	again, err := w.Page(form.Units{})
	require.NoError(t, err)
	work()
	assert.Zero(t, asked)
	assert.Equal(t, right.Sweeps, again.Sweeps)
}
