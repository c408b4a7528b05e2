package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hushwake/path/report/form"
)

func TestBrief(t *testing.T) {
	assert.Equal(t, "It fits.", brief("It fits.", "", 10, 1, "…"))
	assert.Equal(t, "One sentence here. …", brief("One sentence here. Another that is too long.", "", 24, 1, "…"))
	assert.Equal(t, "It is over a limit. …", brief("It is over a limit. What else is told.", "It is over a limit.", 13, 1, "…"), "a limit is never cut off")
	assert.Equal(t, "No. It ends between words …", brief("No. It ends between words somewhere", "", 28, 1, "…"))
	rapid.Check(t, func(r *rapid.T) {
		text := strings.Join(rapid.SliceOf(rapid.StringMatching(`[a-z]{0,30}[.]?`)).Draw(r, "words"), " ")
		width, most := rapid.IntRange(8, 120).Draw(r, "width"), rapid.IntRange(1, 4).Draw(r, "most")
		require.LessOrEqual(r, len(wrap(brief(text, "", width, most, "…"), width)), most)
	})
}

// A terminal says how wide it is, COLUMNS overrules it, both within bounds; a file is no terminal.
func TestColumns(t *testing.T) {
	f, err := os.Open(os.DevNull)
	require.NoError(t, err)
	defer f.Close()
	for stated, want := range map[string]int{"": 0, "80": 80, "20": 72, "500": 120, "-3": 0, "wide": 0} {
		assert.Equal(t, want, columns(f, stated), stated)
	}
	assert.Equal(t, pageWidth, streams{}.page().width)
	assert.True(t, plain("", "", ""))
	assert.True(t, plain("C", "", "en_GB.UTF-8"), "LC_ALL overrules LANG")
	assert.False(t, plain("", "", "en_GB.utf8"))
}

// A long command goes on behind a sign that a shell reads as such, a flag stays with its value.
func TestCommandsCanBePasted(t *testing.T) {
	var out bytes.Buffer
	text := &form.Text{}
	text.Command("  why: ", "hushwake", "explain", "a boat.yaml", "--layout", "a layout with a long name", "--listener", "the seat at the table")
	streams{out: &out, columns: 72}.page().text(text)
	assert.Equal(t, "  why: hushwake explain 'a boat.yaml' \\\n    --layout 'a layout with a long name' \\\n    --listener 'the seat at the table'\n", out.String())
}

// Where the locale promises no more, bars are of plain signs, each still one column wide.
func TestPlainBars(t *testing.T) {
	shown := streams{plain: true}.page().show("50·─●┊90 …")
	assert.Equal(t, "50.-o:90 ..", shown)
}

// A letter that is cut between two writes comes out whole.
func TestVisibleWriterJoinsLetters(t *testing.T) {
	var out bytes.Buffer
	v := &visible{w: &out}
	for _, b := range []byte("Kajüte a\u202eb 機") {
		n, err := v.Write([]byte{b})
		require.NoError(t, err)
		require.Equal(t, 1, n)
	}
	assert.Equal(t, `Kajüte a\u202eb 機`, out.String())
}

// fits demands a text of so many lines and columns.
func fits(t *testing.T, text string, lines, columns int) {
	t.Helper()
	assert.LessOrEqual(t, strings.Count(text, "\n"), lines, "lines of\n%s", text)
	for _, l := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(l), columns, l)
	}
}
