package live

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/edit"
	"hushwake/path/report"
	"hushwake/path/study/readings"
	"hushwake/testdata/turns"
)

const bore = "/layouts/3/replace/old silencer/chamber/bore"

func demo(t testing.TB, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../../testdata", name+".yaml"))
	require.NoError(t, err)
	return text
}

// fewer is a demo with its first layouts alone.
func fewer(t testing.TB, name string, layouts int) []byte {
	t.Helper()
	text := demo(t, name)
	for at := fmt.Sprintf("/layouts/%d", layouts); ; {
		if _, more := edit.Get(text, at); !more {
			return text
		}
		less, err := edit.Remove(text, at)
		require.NoError(t, err)
		text = less
	}
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

// The full form is what compare prints, to the byte. Of the demos a run takes two.
func TestFullIsCompare(t *testing.T) {
	names := []string{"everything", "generator-box", "dry-stack", "mine", "three-quotes", "choice"}
	require.Subset(t, names, boatfile.StarterKinds)
	for i := range turns.Of(t, len(names), 3) {
		name := names[i]
		t.Run(name, func(t *testing.T) {
			s := New("demo.yaml", demo(t, name))
			a := clean(t, s.Do(Message{Op: "show"}))
			assert.Equal(t, Quick, a.Figures.Form)
			a = clean(t, s.Do(Message{Op: "full"}))
			assert.Equal(t, Full, a.Figures.Form)
			assert.Zero(t, a.Left)
			assert.Equal(t, compared(t, a.Text), document(t, a.Figures.Comparison))
		})
	}
}

// After edits, undo, and a text that does not load, the full form is still that of compare, and that of the first text as before.
func TestFullAfterADetour(t *testing.T) {
	text := fewer(t, "generator-box", 3)
	s := New("demo.yaml", text)
	was := document(t, clean(t, s.Do(Message{Op: "full"})).Figures.Comparison)
	engine := s.boat.Layouts[0].Exhausts[0].Engine
	height := "/layouts/0/exhausts/" + engine + "/outlet/at/2"
	first := s.figures
	a := clean(t, s.Do(Message{Op: "set", At: height, To: "0.9 m"}))
	assert.Equal(t, Quick, a.Figures.Form)
	a = s.Do(Message{Op: "set", At: height, To: "up"})
	require.NotEmpty(t, a.Errors)
	assert.Equal(t, height, a.Errors[0].At)
	assert.False(t, a.Fresh(), "figures of the text before keep its stamp")
	assert.NotEqual(t, first.Stamp, a.Figures.Stamp)
	assert.Zero(t, a.Left)
	s.Do(Message{Op: "undo"})
	for a.Left = 1; a.Left > 0; {
		a = clean(t, s.Do(Message{Op: "further"}))
	}
	require.Equal(t, Full, a.Figures.Form)
	assert.Equal(t, compared(t, a.Text), document(t, a.Figures.Comparison))
	a = clean(t, s.Do(Message{Op: "undo"}))
	assert.Equal(t, text, a.Text)
	assert.Same(t, first, a.Figures, "what is kept of the first text")
	assert.Equal(t, was, document(t, a.Figures.Comparison))
	a = clean(t, s.Do(Message{Op: "redo"}))
	assert.True(t, a.Dirty && a.CanUndo)
}

// Only the edited layout is worked out again; the others keep their levels. The quick figures of the edited one lie within 1 dB of
// the full ones (judgement, set before they were compared), and come closer than plane waves without what is put right.
func TestOnlyTheEditedLayout(t *testing.T) {
	s := New("demo.yaml", fewer(t, "dry-stack", 4))
	full := clean(t, s.Do(Message{Op: "full"})).Figures
	before, name := s.memo.misses, s.boat.Layouts[3].Name
	quick := clean(t, s.Do(Message{Op: "set", At: bore, To: "380 mm"})).Figures
	assert.Equal(t, Quick, quick.Form)
	assert.Empty(t, quick.Waiting)
	assert.Equal(t, 1, s.memo.misses-before)
	for _, l := range s.boat.Layouts {
		for seat, level := range levels(t, full, l.Name) {
			if l.Name != name {
				assert.InDelta(t, level, levels(t, quick, l.Name)[seat], 1e-9, "%s at %s", l.Name, seat)
			}
		}
	}
	assert.NotEqual(t, levels(t, full, name), levels(t, quick, name))
	raw, err := s.memo.Predict(s.whole, s.boat.Layouts[3], path.Fast)
	require.NoError(t, err)
	off, plain := 0.0, 0.0
	fine := clean(t, s.Do(Message{Op: "full"})).Figures
	central := fine.known.Central[3]
	for j, h := range quick.known.Central[3].Listeners {
		off += math.Abs(h.DBA() - central.Listeners[j].DBA())
		plain += math.Abs(raw.Listeners[j].DBA() - central.Listeners[j].DBA())
		assert.InDelta(t, levels(t, fine, name)[h.Listener.Name], levels(t, quick, name)[h.Listener.Name], 1)
	}
	assert.Less(t, off, plain)
	misses, f := s.memo.misses, s.figures
	assert.Same(t, f, s.Do(Message{Op: "set", At: bore, To: "380 mm"}).Figures, "the same text costs nothing")
	assert.Same(t, f, s.Do(Message{Op: "show"}).Figures)
	assert.Equal(t, misses, s.memo.misses)
}

// An edit that concerns all layouts shows the chosen one at once and names those that wait.
func TestAnEditOfAll(t *testing.T) {
	s := New("demo.yaml", fewer(t, "three-quotes", 2))
	clean(t, s.Do(Message{Op: "full"}))
	engine := s.boat.Layouts[0].Engines[0].Name
	chosen := s.boat.Layouts[1].Name
	s.Do(Message{Op: "layout", To: chosen})
	a := clean(t, s.Do(Message{Op: "set", At: "/engines/" + engine + "/running", To: "{power: 20 kW, speed: 2000 rpm}"}))
	assert.Len(t, a.Figures.Waiting, len(s.boat.Layouts)-1)
	assert.NotContains(t, a.Figures.Waiting, chosen)
	assert.Equal(t, len(s.boat.Layouts)+1, a.Left)
	other := s.boat.Layouts[0].Name
	a = clean(t, s.Do(Message{Op: "layout", To: other}))
	assert.NotContains(t, a.Figures.Waiting, other)
}

// A reading that is added moves levels at once, and is what compare reads.
func TestAReadingMovesTheLevels(t *testing.T) {
	text := strings.Replace(string(demo(t, "mine")), "readings: unknown", "readings: [{listener: seat, layout: as is, level: 78 dBA}] ", 1)
	if turns.All() { // a boat with readings of four kinds
		text = string(demo(t, "generator-box"))
	}
	s := New("demo.yaml", []byte(text))
	require.NotEmpty(t, s.boat.Readings)
	was := clean(t, s.Do(Message{Op: "full"})).Figures
	name, seat := s.boat.Layouts[0].Name, s.boat.Listeners[0].Name
	at := levels(t, was, name)[seat]
	a := clean(t, s.Do(Message{Op: "note", To: fmt.Sprintf("%.1f dBA", at-6), PlusMinus: "1 dB"}))
	assert.Less(t, levels(t, a.Figures, name)[seat], at-1)
	assert.Equal(t, 1, len(s.boat.Readings)-len(was.known.File.Readings))
	a = clean(t, s.Do(Message{Op: "full"}))
	assert.Equal(t, compared(t, a.Text), document(t, a.Figures.Comparison))
}

// An edit that was meant for a text whose parts have moved since is not done; one for a text of the same shape is.
func TestEditsOfAnotherText(t *testing.T) {
	s := New("demo.yaml", demo(t, "mine"))
	first := s.is.stamp
	a := s.Do(Message{Op: "set", At: "/engines/main/cylinders", To: "3", Stamp: first})
	require.Empty(t, a.Errors)
	a = s.Do(Message{Op: "set", At: "/engines/main/rated/speed", To: "2800 rpm", Stamp: first})
	require.Empty(t, a.Errors)
	require.Empty(t, s.Do(Message{Op: "remove", At: "/layouts/1", Stamp: a.Stamp}).Errors)
	text := s.Text()
	a = s.Do(Message{Op: "set", At: "/layouts/1/name", To: "x", Stamp: first})
	require.NotEmpty(t, a.Errors)
	assert.Equal(t, text, a.Text)
	assert.NotEmpty(t, s.Do(Message{Op: "set", At: "/nowhere/at/all", To: "[", Stamp: ""}).Errors)
	assert.Equal(t, text, s.Text())
	for _, m := range []Message{{Op: "what"}, {Op: "redo"}, {Op: "layout", To: "none"}, {Op: "listener", To: "none"}} {
		assert.NotEmpty(t, s.Do(m).Errors, m.Op)
	}
	s.Do(Message{Op: "saved"})
	assert.Empty(t, s.Do(Message{Op: "show"}).Diff)
	assert.False(t, s.Do(Message{Op: "show"}).Dirty)
	s.Do(Message{Op: "undo"})
	assert.NotEmpty(t, s.Do(Message{Op: "diff"}).Diff)
}

// Nonsense is answered with what is wrong, and the session goes on.
func TestHostileTexts(t *testing.T) {
	good := demo(t, "mine")
	many := strings.Repeat("  - {name: a, exhausts: {main: {line: [pipe: {}], outlet: {}}}}\n", 10000)
	s := New("demo.yaml", good)
	clean(t, s.Do(Message{Op: "show"}))
	for name, text := range map[string]string{
		"nothing": "", "a megabyte": strings.Repeat("nonsense: [", 1<<20/11), "too much": strings.Repeat("a", 1<<20+1), "deep": strings.Repeat("[", 10000) + strings.Repeat("]", 10000),
		"layouts": "layouts:\n" + many, "binary": "\x00\xff\xfe", "list": "- a\n- b\n", "bench": "bench: {gas: air, temperature: 20 °C, mass_flow: 0 kg/s}\nlayouts: [{name: a, exhausts: {bench: {line: [pipe: {bore: 50 mm, length: 1 m}]}}}]\n",
	} {
		a := s.Do(Message{Op: "replace-text", To: text})
		assert.NotEmpty(t, a.Errors, name)
		assert.LessOrEqual(t, len(a.Errors), maxSlips, name)
		assert.Equal(t, name == "too much", a.Fresh(), name)
		s.Do(Message{Op: "set", At: "/engines/main/cylinders", To: "3"})
		for s.is.stamp != stampOf(good) {
			require.True(t, s.Do(Message{Op: "undo"}).CanRedo, name)
		}
	}
	clean(t, s.Do(Message{Op: "show"}))
}

// What a session keeps does not grow with the number of edits.
func TestMemoryIsBounded(t *testing.T) {
	s := New("demo.yaml", demo(t, "mine"))
	clean(t, s.Do(Message{Op: "show"}))
	for i := range 60 {
		clean(t, s.Do(Message{Op: "set", At: "/layouts/0/exhausts/main/line/0/pipe/length", To: fmt.Sprintf("%d mm", 2000+i)}))
	}
	assert.LessOrEqual(t, len(s.memo.held), s.memo.most)
	assert.LessOrEqual(t, len(s.recent), kepts[Full]+kepts[Quick])
	var h history
	for i := range maxPast + 50 {
		h.put([]byte(strings.Repeat(fmt.Sprint(i), 1000)), true)
	}
	assert.Len(t, h.past, maxPast)
	for i := range 40 {
		h.put([]byte(strings.Repeat("x", 1<<20-i)), true)
	}
	assert.LessOrEqual(t, len(h.past), 16)
}
