//go:build live

package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/browsertest"
	"hushwake/charts/live"
	"hushwake/cmd/live/program"
	"hushwake/testdata"
)

func TestMain(m *testing.M) { browsertest.Main(m) }

const bore = "/layouts/0/exhausts/main/line/5/packed/bore"

// threeLayouts is the dry stack with the first of its layouts, for a test that works them all out in the browser.
func threeLayouts(t *testing.T) []byte {
	text := dryStack(t)
	head, rest, ok := bytes.Cut(text, []byte("  - {name: reactive 406 mm"))
	_, tail, also := bytes.Cut(rest, []byte("\nreadings:"))
	require.True(t, ok && also)
	return append(append(head[:len(head):len(head)], "readings:"...), tail...)
}

func dryStack(t *testing.T) []byte {
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(t, err)
	return text
}

func page(t *testing.T, text []byte) []byte {
	p, err := program.Get()
	require.NoError(t, err)
	d, err := live.NewDesk("boat.yaml", text)
	require.NoError(t, err)
	return live.Page(live.PageOptions{Name: "boat.yaml", Desk: d, Worker: p.Worker, Program: p.Packed})
}

func TestThePageIsUnderFiveMegabytes(t *testing.T) {
	n := len(page(t, dryStack(t)))
	t.Logf("%.2f MB", float64(n)/1e6)
	assert.Less(t, n, 5_000_000)
}

// answer is what counts of an answer here.
type answer struct {
	Stamp, Form string
	Left        int
	Errors      []any
	Figures     struct {
		Stamp   string
		Layouts []struct {
			Name      string
			Listeners []struct {
				Name  string
				Level *float64 `json:"level_dba"`
				Low   *float64 `json:"low_dba"`
				High  *float64 `json:"high_dba"`
			}
		}
	}
}

// overhear keeps what the worker of a page says.
const overhear = `(function () {
	var real = window.Worker;
	window.answers = [];
	window.Worker = function (address) {
		var w = new real(address);
		w.addEventListener('message', function (e) { window.answers.push(e.data.failed ? { failed: e.data.failed } : JSON.parse(e.data.answer)); });
		return w;
	};
})()`

// The page from a file works a boat out, takes a bore and works it out again, in the quick form and in the full one, as the
// program does outside a browser, to a billionth of a dB; its policy lets all of that through and its console stays empty.
func TestInTheBrowserAsOutside(t *testing.T) {
	text := threeLayouts(t)
	name := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(name, page(t, text), 0o600))
	b := browsertest.Start(t)
	b.Tap()
	b.Call("Page.addScriptToEvaluateOnNewDocument", map[string]any{"source": overhear})
	b.Visit(name)
	d, err := live.NewDesk("boat.yaml", text)
	require.NoError(t, err)
	same(t, native(t, d, `{"op":"show"}`), inside(t, b, "quick", ""))
	was := deepest(t, d)
	same(t, was, inside(t, b, "full", ""))
	b.Eval(`(function () { var e = document.querySelector('[data-at="`+bore+`"]'); for (var p = e; p; p = p.parentElement) { if (p.tagName === 'DETAILS') { p.open = true; } } e.focus(); e.value = '100 mm'; e.dispatchEvent(new Event('change', { bubbles: true })); return true; })()`, nil)
	quick := native(t, d, `{"op":"set","at":"`+bore+`","to":"100 mm"}`)
	require.NotEqual(t, was.Stamp, quick.Stamp)
	require.NotEqual(t, was.Figures.Layouts[0].Listeners[0].Level, quick.Figures.Layouts[0].Listeners[0].Level)
	same(t, quick, inside(t, b, "quick", quick.Stamp))
	same(t, deepest(t, d), inside(t, b, "full", quick.Stamp))
	b.Click(`[data-op="sounds"]`)
	b.Until("the sounds are there", `!!document.querySelector('[data-clip="0"]:enabled')`)
	require.Equal(t, -200.0, b.Played())
	b.Click(`[data-clip="firing"]`)
	var at float64
	b.Eval(`Number(document.getElementById('player').dataset.firingAt)`, &at)
	b.Hears("the firing tone, at 30 of the slider", 40*math.Log10(0.3)+20*math.Log10(at/math.Sqrt2))
	assert.Empty(t, slices.DeleteFunc(b.Complaints(name), func(c string) bool { return strings.HasPrefix(c, "request: blob:") }))
}

// native sends a message to a desk outside the browser.
func native(t *testing.T, d *live.Desk, message string) (a answer) {
	t.Helper()
	require.NoError(t, json.Unmarshal(d.Handle([]byte(message)), &a))
	require.Empty(t, a.Errors)
	return a
}

// deepest goes on to the full form.
func deepest(t *testing.T, d *live.Desk) (a answer) {
	for a.Left = 1; a.Left > 0; {
		a = native(t, d, `{"op":"further"}`)
	}
	return a
}

// inside waits for an answer inside the browser, of a form and of a text; "" = the first.
func inside(t *testing.T, b *browsertest.Browser, form, stamp string) (a answer) {
	t.Helper()
	find := `window.answers.find(function (a) { return a.failed || a.form === '` + form + `' && ('` + stamp + `' === '' || a.stamp === '` + stamp + `'); })`
	require.Eventually(t, func() (there bool) { // a page that works everything out is slow where others work beside it
		b.Eval("!!"+find, &there)
		return there
	}, 2*time.Minute, 50*time.Millisecond, "an answer in the %s form", form)
	var raw string
	b.Eval("JSON.stringify("+find+")", &raw)
	require.NotContains(t, raw, `"failed"`)
	require.NoError(t, json.Unmarshal([]byte(raw), &a))
	return a
}

// same compares the figures of two answers.
func same(t *testing.T, want, got answer) {
	t.Helper()
	require.Equal(t, want.Stamp, got.Stamp)
	require.Equal(t, want.Form, got.Form)
	require.Equal(t, got.Stamp, got.Figures.Stamp)
	require.Len(t, got.Figures.Layouts, len(want.Figures.Layouts))
	for i, l := range want.Figures.Layouts {
		for j, h := range l.Listeners {
			is := got.Figures.Layouts[i].Listeners[j]
			require.Equal(t, l.Name+h.Name, got.Figures.Layouts[i].Name+is.Name)
			assert.InDelta(t, *h.Level, *is.Level, 1e-9)
			assert.InDelta(t, *h.Low, *is.Low, 1e-9)
			assert.InDelta(t, *h.High, *is.High, 1e-9)
		}
	}
}
