package wholefile

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/report/form"
)

// A filled file takes a free name at once, another's only by force, and a folder's never.
func TestPlace(t *testing.T) {
	folder := t.TempDir()
	name := filepath.Join(folder, "there")
	put := func(text string, to string, force bool) error {
		f, err := os.CreateTemp(folder, ".new-*")
		require.NoError(t, err)
		require.NoError(t, Fill(f, []byte(text), 0o640))
		return Place(f.Name(), to, force)
	}
	reads := func(want string) {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Equal(t, want, string(text))
	}
	require.NoError(t, put("one", name, false))
	reads("one")
	info, err := os.Stat(name)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), info.Mode().Perm())
	err = put("two", name, false)
	require.ErrorContains(t, err, "exists and is kept")
	require.ErrorAs(t, err, new(*form.Failure))
	reads("one")
	require.NoError(t, put("three", name, true))
	reads("three")
	require.ErrorContains(t, put("four", filepath.Join(folder, "no folder", "x"), true), "cannot write")
}

// A file that is closed can't be filled, and says so.
func TestFillNeedsAnOpenFile(t *testing.T) {
	f, err := os.CreateTemp(t.TempDir(), "x")
	require.NoError(t, err)
	require.NoError(t, f.Close())
	require.Error(t, Fill(f, []byte("x"), 0o600))
}
