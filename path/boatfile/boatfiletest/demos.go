// Package boatfiletest reads the demo boats for tests.
package boatfiletest

import (
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/testdata"
)

// T is a test, of testing or of rapid.
type T interface {
	require.TestingT
	Helper()
}

// Demo is a demo boat by its name without .yaml, read afresh.
func Demo(t T, name string) *path.Boat {
	t.Helper()
	b, err := Adding(t, name, "")
	require.NoError(t, err)
	return b
}

// Adding reads a demo boat with a section more at its end.
func Adding(t T, name, section string) (*path.Boat, error) {
	t.Helper()
	text, err := testdata.Files.ReadFile(name + ".yaml")
	require.NoError(t, err)
	return boatfile.Load(name+".yaml", append(text, "\n"+section+"\n"...))
}
