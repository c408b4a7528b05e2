package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/testdata/turns"
)

// Each file of the record passes check; a run takes a quarter.
func TestRecordPassesCheck(t *testing.T) {
	files, err := filepath.Glob(demos + "measured/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for i := range turns.Of(t, len(files), 4) {
		f := files[i]
		assert.Contains(t, output(t, "check", f, "--quiet"), "No errors.", f)
	}
}

// The guide's example is a case that runs.
func TestGuideOfTheRecord(t *testing.T) {
	text, err := os.ReadFile(demos + "measured/README.md")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "example.yaml")
	require.NoError(t, os.WriteFile(file, []byte(fenced(string(text), "yaml")), 0o600))
	assert.Contains(t, output(t, "verify", "--measured", file, "--samples", "2"), "launch-dry")
}

// fenced is the first block of a language in a Markdown text.
func fenced(text, language string) string {
	_, rest, _ := strings.Cut(text, "```"+language+"\n")
	block, _, _ := strings.Cut(rest, "```")
	return block
}
