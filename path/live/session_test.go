package live

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/boatfile/edit"
	"hushwake/path/report"
	"hushwake/path/study/readings"
)

const bore = "/layouts/3/replace/old silencer/chamber/bore"

func demo(t testing.TB, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../../testdata", name+".yaml"))
	require.NoError(t, err)
	return text
}

// compared is what compare gives for a text, as JSON.
func compared(t testing.TB, text []byte) string {
	t.Helper()
	b, err := boatfile.Load("demo.yaml", text)
	require.NoError(t, err)
	known, err := report.Know(b, readings.Options{})
	require.NoError(t, err)
	w, err := report.NewComparison(b, b.Layouts, 0, known)
	require.NoError(t, err)
	return document(t, w)
}

func document(t testing.TB, w *report.Comparison) string {
	t.Helper()
	out, err := json.Marshal(w.Document())
	require.NoError(t, err)
	return string(out)
}

// levels are those of a layout by listener.
func levels(t testing.TB, f *Figures, layout string) map[string]float64 {
	t.Helper()
	for _, l := range f.Comparison.Spread.Layouts {
		if l.Name == layout {
			out := map[string]float64{}
			for _, h := range l.Listeners {
				out[h.Listener] = h.Level
			}
			return out
		}
	}
	t.Fatalf("no layout %q in the figures", layout)
	return nil
}

func clean(t testing.TB, a Answer) Answer {
	t.Helper()
	require.Empty(t, a.Errors)
	require.True(t, a.Fresh())
	require.Equal(t, a.Stamp, a.Figures.Comparison.Boat.Hash)
	return a
}

// The full form is what compare prints, also after edits, undo and a detour over a text that does not load.
func TestFullIsCompare(t *testing.T) {
	for _, name := range []string{"dry-stack", "generator-box", "three-quotes"} {
		t.Run(name, func(t *testing.T) {
			s := New("demo.yaml", demo(t, name))
			clean(t, s.Do(Message{Op: "show"}))
			a := clean(t, s.Do(Message{Op: "full"}))
			require.Equal(t, Full, a.Figures.Form)
			require.Zero(t, a.Left)
			was := document(t, a.Figures.Comparison)
			assert.Equal(t, compared(t, a.Text), was)
			length := "/layouts/0/exhausts/" + a.Figures.Comparison.Boat.Layouts[0].Exhausts[0].Engine + "/outlet/at/2"
			a = clean(t, s.Do(Message{Op: "set", At: length, To: "3.3 m"}))
			assert.Equal(t, Quick, a.Figures.Form)
			a = clean(t, s.Do(Message{Op: "full"}))
			assert.Equal(t, compared(t, a.Text), document(t, a.Figures.Comparison))
			a = s.Do(Message{Op: "set", At: length, To: "up"})
			require.NotEmpty(t, a.Errors)
			assert.Equal(t, length, a.Errors[0].At)
			require.False(t, a.Fresh())
			s.Do(Message{Op: "undo"})
			a = clean(t, s.Do(Message{Op: "undo"}))
			assert.Equal(t, demo(t, name), a.Text)
			a = clean(t, s.Do(Message{Op: "full"}))
			assert.Equal(t, was, document(t, a.Figures.Comparison))
		})
	}
}

// Only the edited layout is worked out again, and the others keep their levels.
func TestOnlyTheEditedLayout(t *testing.T) {
	s := New("demo.yaml", demo(t, "dry-stack"))
	clean(t, s.Do(Message{Op: "full"}))
	before := s.memo.worked
	full := s.figures
	a := clean(t, s.Do(Message{Op: "set", At: bore, To: "380 mm"}))
	t.Log(s.memo.worked - before)
	assert.Equal(t, Quick, a.Figures.Form)
	assert.Equal(t, 1, s.memo.worked-before)
	for _, l := range a.Figures.Comparison.Boat.Layouts {
		was, is := levels(t, full, l.Name), levels(t, a.Figures, l.Name)
		for seat, level := range was {
			if l.Name == a.Figures.Comparison.Boat.Layouts[3].Name {
				t.Log(seat, level, is[seat])
				continue
			}
			assert.InDelta(t, level, is[seat], 1e-9, "%s at %s", l.Name, seat)
		}
	}
	quick := levels(t, a.Figures, a.Figures.Comparison.Boat.Layouts[3].Name)
	a = clean(t, s.Do(Message{Op: "full"}))
	for seat, level := range levels(t, a.Figures, a.Figures.Comparison.Boat.Layouts[3].Name) {
		t.Log(seat, quick[seat], level)
		assert.InDelta(t, level, quick[seat], 1)
	}
	worked := s.memo.worked
	f := s.figures
	a = s.Do(Message{Op: "set", At: bore, To: "380 mm"})
	assert.Same(t, f, a.Figures)
	a = s.Do(Message{Op: "show"})
	assert.Same(t, f, a.Figures)
	assert.Equal(t, worked, s.memo.worked)
}

var _ = math.Abs
var _ = strings.Repeat
var _ = edit.Quote
