package main

import (
	"bufio"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestOpenRefuses(t *testing.T) {
	for _, name := range []string{"-", filepath.Join(t.TempDir(), "none.yaml"), t.TempDir()} {
		_, err := openBoatFile(name)
		require.Error(t, err)
		var e *exitError
		require.ErrorAs(t, err, &e)
		require.Equal(t, statusBadInput, e.status)
	}
}

func TestOpenerOfEachSystem(t *testing.T) {
	require.Equal(t, []string{"xdg-open"}, opener("linux"))
	require.Equal(t, []string{"xdg-open"}, opener("freebsd"))
	require.Equal(t, []string{"open"}, opener("darwin"))
	require.Equal(t, "rundll32", opener("windows")[0])
}

// The token reaches the browser through a file for its owner alone, never by a command line, which all can read.
func TestOpenHidesTheToken(t *testing.T) {
	folder, bin := t.TempDir(), t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(bin, "xdg-open"), []byte("#!/bin/sh\nprintf '%s' \"$1\" > "+filepath.Join(bin, "seen.new")+"\nmv "+filepath.Join(bin, "seen.new")+" "+filepath.Join(bin, "seen")+"\n"), 0o755))
	t.Setenv("PATH", bin+":"+os.Getenv("PATH"))
	c := &common{streams: streams{out: io.Discard, err: io.Discard}}
	forget := c.browse("http://127.0.0.1:1/#SECRET", folder)
	var seen []byte
	require.Eventually(t, func() (ok bool) {
		var err error
		seen, err = os.ReadFile(filepath.Join(bin, "seen"))
		return err == nil
	}, 20*time.Second, time.Millisecond)
	require.NotContains(t, string(seen), "SECRET")
	info, err := os.Stat(string(seen))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	page, err := os.ReadFile(string(seen))
	require.NoError(t, err)
	require.Contains(t, string(page), `url=http://127.0.0.1:1/#SECRET"`)
	forget()
	require.NoFileExists(t, string(seen))
}

// The whole program: it prints its address, answers there, writes the file, and on Ctrl-C keeps what was not saved.
func TestOpenRuns(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no interrupts")
	}
	folder := t.TempDir()
	name := filepath.Join(folder, "dry-stack.yaml")
	require.NoError(t, os.WriteFile(name, starter(t, "dry-stack"), 0o644))
	cmd := exec.Command("hushwake", "open", "dry-stack.yaml", "--no-browser")
	cmd.Dir = folder
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	defer cmd.Process.Kill()
	said := bufio.NewScanner(out)
	require.True(t, said.Scan())
	_, address, _ := strings.Cut(said.Text(), "the page stands at ")
	base, token, ok := strings.Cut(address, "#")
	require.True(t, ok, said.Text())
	ask := func(path, body string) (int, map[string]any) {
		r, err := http.NewRequest(http.MethodPost, base+path, strings.NewReader(body))
		require.NoError(t, err)
		r.Header = http.Header{"Origin": {strings.TrimSuffix(base, "/")}, "Content-Type": {"application/json"}, "X-Hushwake-Token": {token}}
		w, err := http.DefaultClient.Do(r)
		require.NoError(t, err)
		defer w.Body.Close()
		answer := map[string]any{}
		json.NewDecoder(w.Body).Decode(&answer)
		return w.StatusCode, answer
	}
	code, answer := ask("do", `{"op": "set", "at": "/heel", "to": "15 deg"}`)
	require.Equal(t, http.StatusOK, code)
	stamp, _ := json.Marshal(map[string]any{"stamp": answer["stamp"]})
	code, _ = ask("save", string(stamp))
	require.Equal(t, http.StatusNoContent, code)
	ask("do", `{"op": "set", "at": "/heel", "to": "10 deg"}`)
	require.NoError(t, cmd.Process.Signal(syscall.SIGINT))
	var rest []string
	for said.Scan() {
		rest = append(rest, said.Text())
	}
	require.NoError(t, cmd.Wait())
	for file, heel := range map[string]string{name: "15 deg", name + "~": "20 deg", filepath.Join(folder, "dry-stack.rescue.yaml"): "10 deg"} {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		require.Equal(t, strings.Replace(string(starter(t, "dry-stack")), "heel: 20 deg", "heel: "+heel, 1), string(text))
	}
	require.Contains(t, strings.Join(rest, "\n"), "dry-stack.rescue.yaml")
}
