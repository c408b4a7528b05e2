package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/cmd/live/program"
)

// ran runs a command and gives its status and what it said.
func ran(args ...string) (int, string) {
	var out, said bytes.Buffer
	status := run(args, streams{in: strings.NewReader(""), out: &out, err: &said})
	return status, said.String()
}

// A page with the program inside is written where the program is built in; else it is said how to come to one. What such a page
// could not keep to is refused.
func TestCompareLive(t *testing.T) {
	dir := t.TempDir()
	boat, out := filepath.Join(dir, "boat.yaml"), filepath.Join(dir, "page.html")
	require.NoError(t, os.WriteFile(boat, starter(t, "mine"), 0o600))
	_, err := program.Get()
	status, said := ran("compare", boat, "--report", out, "--live", "--units", "imperial", "--layout", "another silencer")
	page, missing := os.ReadFile(out)
	if err != nil {
		assert.Equal(t, statusBadInput, status)
		assert.Contains(t, said, "hint: go generate ./cmd/live && go build -tags live")
		assert.ErrorIs(t, missing, os.ErrNotExist)
	} else {
		assert.Equal(t, statusDone, status, said)
		assert.Contains(t, string(page[:4000]), "worker-src blob:")
		assert.Less(t, len(page), 5_000_000)
	}
	for flags, says := range map[string]string{"--quiet": "add --report", "--report=x.html --ignore-readings": "leave out", "--report=x.html --draws=200": "leave out"} {
		status, said := ran(append([]string{"compare", boat, "--live"}, strings.Fields(flags)...)...)
		assert.Equal(t, statusBadInput, status, flags)
		assert.Contains(t, said, says, flags)
	}
}
