package verify

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/source/published"
	"hushwake/testdata"
)

func TestVerify(t *testing.T) {
	r, err := Run()
	require.NoError(t, err)
	for _, c := range r.Checks {
		if c.Verdict == Holds {
			continue
		}
		ours := math.NaN()
		if c.Ours != nil {
			ours = *c.Ours
		}
		t.Errorf("%s: %s (%s): expected %g +- %g %s, ours %g %s", c.ID, c.What, c.Source, c.Expected, c.Tolerance, c.Unit, ours, c.Note)
	}
	require.Equal(t, len(r.Checks), r.Passed+r.Failed)
	require.NotEmpty(t, r.NotValidated)
}

func TestEnoughChecksOverEnoughSources(t *testing.T) {
	r, err := Run()
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(r.Checks), 40)
	require.GreaterOrEqual(t, len(r.Sources), 12, "%s", strings.Join(r.Sources, "\n"))
	ids := map[string]bool{}
	for _, c := range r.Checks {
		require.False(t, ids[c.ID], "twice: %s", c.ID)
		ids[c.ID] = true
		require.NotEmpty(t, c.Source, c.ID)
		require.NotEmpty(t, c.What, c.ID)
		require.Contains(t, published.Marks, c.Mark, c.ID)
	}
}

func TestVerifyFailsLoudly(t *testing.T) {
	row := testdata.Check{ID: "x/1", Function: "x", Expected: 1, Tolerance: 0.1, Args: []float64{1}}
	fine := func(a []float64) (float64, error) { return a[0] + 0.05, nil }
	require.Equal(t, Holds, verifyRow(row, fine).Verdict)
	for _, bad := range []published.Value{nil,
		func([]float64) (float64, error) { return 1.2, nil },
		func([]float64) (float64, error) { return math.NaN(), nil },
		func([]float64) (float64, error) { return math.Inf(1), nil },
		func(a []float64) (float64, error) { return a[7], nil },
		func([]float64) (float64, error) { return 1, os.ErrInvalid }} {
		require.Equal(t, fails, verifyRow(row, bad).Verdict)
	}
}

// changes are constants of the code, each of which a published row of its own must notice: no other change reaches the row.
var changes = []struct{ file, was, is, row string }{
	{"source/spectrum/weighting.go", "-16.1, -8.6, -3.2", "-16.1, -9.6, -3.2", "spectrum/a-table-250"},
	{"source/handbook.go", "return 119 + 10*", "return 118 + 10*", "source/exhaust-1hp"},
	{"silencer/loss/friction.go", "roughness/3.7, 2.51/re", "roughness/3.7, 2.61/re", "loss/colebrook-1e+04-0.005"},
}

// runner is a program that runs nothing but the checks and prints the rows that fail.
const runner = `package main

import (
	"fmt"
	"os"

	"hushwake/path/study/verify"
)

func main() {
	r, err := verify.Run()
	if err != nil {
		fmt.Println(err)
		os.Exit(2)
	}
	for _, c := range r.Checks {
		if c.Verdict == "fails" {
			fmt.Println("fails:", c.ID)
		}
	}
	if r.Failed > 0 {
		os.Exit(3)
	}
}
`

// TestAChangedConstantIsNoticed copies the module, changes constants of packages that don't know each other's, and runs the
// checks: TestVerify has run them unchanged.
func TestAChangedConstantIsNoticed(t *testing.T) {
	dir := t.TempDir()
	copyModule(t, filepath.Join("..", "..", ".."), dir)
	write(t, filepath.Join(dir, "cmd", "checks", "main.go"), runner)
	for _, c := range changes {
		name := filepath.Join(dir, filepath.FromSlash(c.file))
		whole, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Contains(t, string(whole), c.was, c.file)
		write(t, name, strings.ReplaceAll(string(whole), c.was, c.is))
	}
	code, text := runChecks(t, dir)
	require.Equal(t, 3, code, text)
	for _, c := range changes {
		require.Contains(t, text, "fails: "+c.row+"\n", "%s with %q", c.file, c.is)
	}
	require.Less(t, strings.Count(text, "fails: "), 60, "what has nothing to do with them holds")
}

// runChecks builds and runs the copy; -trimpath lets the build cache serve what did not change.
func runChecks(t *testing.T, dir string) (int, string) {
	t.Helper()
	program := filepath.Join(dir, "checks.exe")
	build := exec.Command("go", "build", "-trimpath", "-o", program, "./cmd/checks")
	build.Dir = dir
	text, err := build.CombinedOutput()
	require.NoError(t, err, string(text))
	run := exec.Command(program)
	text, err = run.CombinedOutput()
	if err != nil && run.ProcessState == nil {
		require.NoError(t, err)
	}
	return run.ProcessState.ExitCode(), string(text)
}

// copyModule copies what the checks need: code without tests, module files and embedded tables.
func copyModule(t *testing.T, from, to string) {
	t.Helper()
	for _, name := range []string{"go.mod", "go.sum"} {
		text, err := os.ReadFile(filepath.Join(from, name))
		require.NoError(t, err)
		write(t, filepath.Join(to, name), string(text))
	}
	for _, top := range []string{"source", "silencer", "path", "testdata"} {
		err := filepath.WalkDir(filepath.Join(from, top), func(name string, d os.DirEntry, err error) error {
			if err != nil || d.IsDir() || strings.HasSuffix(name, "_test.go") {
				return err
			}
			rel, err := filepath.Rel(from, name)
			if err != nil {
				return err
			}
			text, err := os.ReadFile(name)
			if err == nil {
				write(t, filepath.Join(to, rel), string(text))
			}
			return err
		})
		require.NoError(t, err)
	}
}

func write(t *testing.T, name, text string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
}

// The headline is rows of Run with their verdicts, one or more of every source.
func TestHeadlineIsOfEverySource(t *testing.T) {
	all, err := Run()
	require.NoError(t, err)
	head, err := Headline()
	require.NoError(t, err)
	left := map[string]bool{}
	byID := map[string]Result{}
	for _, c := range all.Checks {
		left[c.Source], byID[c.ID] = true, c
	}
	require.Less(t, len(head), len(all.Checks)/4)
	for _, c := range head {
		require.Equal(t, byID[c.ID], c)
		delete(left, c.Source)
	}
	require.Empty(t, left)
}
