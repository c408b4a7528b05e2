package loopback

import (
	"bytes"
	"encoding/json"
	"hushwake/charts/browsertest"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

func (tr *trial) saves(body string, want int, says string) map[string]string {
	code, answer := tr.post("/save", body)
	require.Equal(tr, want, code, answer)
	require.Contains(tr, answer, says)
	out := map[string]string{}
	if answer != "" {
		require.NoError(tr, json.Unmarshal([]byte(answer), &out))
	}
	return out
}

// Saving writes the file in place and keeps what stood there before, once.
func TestOpenSavesWithABackup(t *testing.T) {
	tr := newTrial(t, "a: 1\n")
	tr.saves(tr.change("a: 2\n", "", false), http.StatusNoContent, "")
	tr.reads(tr.name, "a: 2\n")
	tr.reads(tr.name+"~", "a: 1\n")
	tr.saves(tr.change("a: 3\n", "", false), http.StatusNoContent, "")
	tr.reads(tr.name, "a: 3\n")
	tr.reads(tr.name+"~", "a: 2\n")
	tr.saves(tr.change("a: 3\n", "", false), http.StatusNoContent, "")
	tr.reads(tr.name+"~", "a: 2\n")
	for _, name := range []string{tr.name, tr.name + "~"} {
		info, err := os.Stat(name)
		require.NoError(t, err)
		require.Equal(t, os.FileMode(0o640), info.Mode().Perm(), "as it was")
	}
	left, err := os.ReadDir(filepath.Dir(tr.name))
	require.NoError(t, err)
	require.Len(t, left, 2, "nothing else is left")
}

// A text that is not the one whose changes were shown isn't saved, nor is any other file written.
func TestOpenSavesWhatWasShown(t *testing.T) {
	tr := newTrial(t, "a: 1\n")
	shown := tr.change("a: 2\n", "", false)
	tr.change("a: 3\n", "", false)
	tr.saves(shown, http.StatusConflict, "after its changes were shown")
	tr.saves(tr.change("a: 4\n", "other.yaml", true), http.StatusForbidden, "no other file")
	tr.saves(`{"force": 7}`, http.StatusConflict, "")
	tr.reads(tr.name, "a: 1\n")
	require.NoFileExists(t, tr.name+"~")
}

func TestOpenFindsTheFileChanged(t *testing.T) {
	tr := newTrial(t, "a: 1\n")
	require.NoError(t, os.WriteFile(tr.name, []byte("a: theirs\n"), 0o644))
	both := tr.saves(tr.change("a: mine\n", "", false), http.StatusConflict, "another program")
	require.Equal(t, "a: mine\n", both["yours"])
	require.Equal(t, "a: theirs\n", both["on_disk"])
	tr.reads(tr.name, "a: theirs\n")
	tr.saves(tr.change("a: mine\n", "", true), http.StatusNoContent, "")
	tr.reads(tr.name, "a: mine\n")
	tr.reads(tr.name+"~", "a: theirs\n")
	require.NoError(t, os.Remove(tr.name)) // gone: nothing to lose
	tr.saves(tr.change("a: again\n", "", false), http.StatusNoContent, "")
	tr.reads(tr.name, "a: again\n")
}

func TestOpenFollowsALink(t *testing.T) {
	tr := newTrial(t, "a: 1\n")
	link := filepath.Join(t.TempDir(), "link.yaml")
	require.NoError(t, os.Symlink(tr.name, link))
	at := trialOf(t, Of(link, []byte("a: 1\n")))
	at.saves(at.change("a: 2\n", "", false), http.StatusNoContent, "")
	tr.reads(tr.name, "a: 2\n")
	tr.reads(tr.name+"~", "a: 1\n")
	to, err := os.Readlink(link)
	require.NoError(t, err)
	require.Equal(t, tr.name, to, "the link is one still")
}

// Where the file can't be written it stays as it is, and the answer says why.
func TestOpenCantWrite(t *testing.T) {
	tr := newTrial(t, "a: 1\n")
	require.NoError(t, os.Chmod(tr.name, 0o440))
	tr.saves(tr.change("a: 2\n", "", false), http.StatusConflict, "write-protected")
	require.NoError(t, os.Chmod(tr.name, 0o640))
	require.NoError(t, os.Mkdir(tr.name+"~", 0o755))
	tr.saves(tr.change("a: 2\n", "", false), http.StatusInternalServerError, "no backup, so nothing was written")
	require.NoError(t, os.Remove(tr.name+"~"))
	tr.reads(tr.name, "a: 1\n")
	folder := filepath.Dir(tr.name)
	locked(t, folder)
	tr.saves(tr.change("a: 2\n", "", false), http.StatusInternalServerError, "no backup")
	tr.reads(tr.name, "a: 1\n")
	kept, err := tr.file.rescue([]byte("a: 2\n"))
	require.NoError(t, err)
	defer os.Remove(kept)
	require.NotEqual(t, folder, filepath.Dir(kept), "no room beside the file")
	tr.reads(kept, "a: 2\n")
}

// locked makes a folder one in which nobody writes, not even who may do everything elsewhere.
func locked(t *testing.T, folder string) {
	if os.Getuid() != 0 {
		require.NoError(t, os.Chmod(folder, 0o555))
		t.Cleanup(func() { os.Chmod(folder, 0o755) })
		return
	}
	if exec.Command("chattr", "+i", folder).Run() != nil {
		t.Skip("this user may write everywhere")
	}
	t.Cleanup(func() { exec.Command("chattr", "-i", folder).Run() })
}

// What a killed save left goes with the next one; what is young, or of others, stays.
func TestOpenTidiesUp(t *testing.T) {
	tr := newTrial(t, "a: 1\n")
	folder := filepath.Dir(tr.name)
	old := time.Now().Add(-2 * time.Minute)
	for _, name := range []string{".hushwake-123", ".hushwake-4", ".hushwake-notes", ".hushwake-"} {
		at := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(at, nil, 0o600))
		if name != ".hushwake-4" {
			require.NoError(t, os.Chtimes(at, old, old))
		}
	}
	tr.saves(tr.change("a: 2\n", "", false), http.StatusNoContent, "")
	require.NoFileExists(t, filepath.Join(folder, ".hushwake-123"))
	for _, name := range []string{".hushwake-4", ".hushwake-notes", ".hushwake-"} {
		require.FileExists(t, filepath.Join(folder, name))
	}
}

// A new boat gets a name in the working directory, and never that of another file without being told.
func TestOpenNamesANewBoat(t *testing.T) {
	t.Chdir(t.TempDir())
	tr := trialOf(t, Of("", nil))
	for _, name := range []string{"", ".", "..", "../up.yaml", "/tmp/abs.yaml", "sub/boat.yaml", `a\b.yaml`, ".hidden.yaml", "page.html", "two\nlines.yaml", "c:boat.yaml",
		strings.Repeat("a", 300) + ".yaml", "boat\u202elmay.yaml", "bo\u2028at.yaml"} {
		tr.saves(tr.change("a: 1\n", name, true), http.StatusUnprocessableEntity, "no name for a file")
	}
	tr.saves(tr.change("a: 1\n", "mine", false), http.StatusNoContent, "")
	tr.reads("mine.yaml", "a: 1\n")
	tr.saves(tr.change("a: 2\n", "mine", false), http.StatusNoContent, "")
	tr.reads("mine.yaml", "a: 2\n")
	require.NoError(t, os.WriteFile("yours.yml", []byte("b: 1\n"), 0o644))
	both := tr.saves(tr.change("a: 3\n", "yours.yml", false), http.StatusConflict, "yours.yml exists")
	require.Equal(t, "b: 1\n", both["on_disk"])
	tr.reads("yours.yml", "b: 1\n")
	tr.saves(tr.change("a: 3\n", "yours.yml", true), http.StatusNoContent, "")
	tr.reads("yours.yml", "a: 3\n")
	tr.reads("yours.yml~", "b: 1\n")
	outside := filepath.Join(t.TempDir(), "outside.yaml")
	require.NoError(t, os.WriteFile(outside, []byte("c: 1\n"), 0o644))
	require.NoError(t, os.Symlink(outside, "link.yaml"))
	tr.saves(tr.change("a: 4\n", "link.yaml", true), http.StatusNoContent, "")
	tr.reads("link.yaml", "a: 4\n")
	tr.reads(outside, "c: 1\n")
	require.NoError(t, os.Mkdir("folder.yaml", 0o755))
	tr.saves(tr.change("a: 5\n", "folder.yaml", true), http.StatusInternalServerError, "is no file")
}

func TestOpenRescues(t *testing.T) {
	tr := newTrial(t, "a: 1\n")
	kept, err := tr.file.rescue([]byte("a: 1\n"))
	require.NoError(t, err)
	require.Empty(t, kept, "nothing to rescue")
	for _, end := range []string{"boat.rescue.yaml", "boat.rescue-2.yaml"} {
		kept, err = tr.file.rescue([]byte("a: 2\n"))
		require.NoError(t, err)
		require.Equal(t, filepath.Join(filepath.Dir(tr.name), "our "+end), kept)
		tr.reads(kept, "a: 2\n")
		info, err := os.Stat(kept)
		require.NoError(t, err)
		require.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	}
	tr.reads(tr.name, "a: 1\n")
}

// TestMain makes saving for ever a command, which can be killed.
func TestMain(m *testing.M) {
	testscript.Main(browsertest.Closing{M: m}, map[string]func(){"save-for-ever": saveForEver})
}

// saveForEver saves two texts in turn until it is killed; the second is told by its first byte.
func saveForEver() {
	one, two := saveTexts()
	f := Of(os.Args[1], one)
	for {
		if f.save(two, "", false) != nil || f.save(one, "", false) != nil {
			os.Exit(9)
		}
	}
}

func saveTexts() (one, two []byte) {
	return bytes.Repeat([]byte("a: 1\n"), 100_000), bytes.Repeat([]byte("b: 2\n"), 100_000)
}

// A program that is killed at any moment leaves the old file or the new one, and a whole backup.
func TestKilledInMidSave(t *testing.T) {
	one, two := saveTexts()
	seen := map[byte]int{}
	for range 25 {
		name := filepath.Join(t.TempDir(), "boat.yaml")
		require.NoError(t, os.WriteFile(name, one, 0o644))
		cmd := exec.Command("save-for-ever", name)
		require.NoError(t, cmd.Start())
		require.Eventually(t, func() bool { _, err := os.Stat(name + "~"); return err == nil }, 30*time.Second, time.Millisecond)
		time.Sleep(time.Duration(rand.IntN(20_000)) * time.Microsecond)
		require.NoError(t, cmd.Process.Kill())
		require.Error(t, cmd.Wait())
		for _, n := range []string{name, name + "~"} {
			text, err := os.ReadFile(n)
			require.NoError(t, err)
			require.True(t, bytes.Equal(text, one) || bytes.Equal(text, two), "%s holds %d bytes, neither old nor new", n, len(text))
			seen[text[0]]++
		}
	}
	require.Len(t, seen, 2, "it was saving all the while")
}
