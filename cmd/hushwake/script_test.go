package main

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/testscript"

	"hushwake/charts/browsertest"
	"hushwake/path/boatfile"
	"hushwake/testdata/turns"
)

// TestMain makes the program itself a command of the scripts, and of any process that they start.
func TestMain(m *testing.M) {
	testscript.Main(browsertest.Closing{M: m}, map[string]func(){"hushwake": main, "write-and-interrupt": writeAndInterrupt})
}

// writeAndInterrupt begins to write a file and is interrupted before it has its name.
func writeAndInterrupt() {
	f, err := os.CreateTemp(".", ".hushwake-*")
	if err != nil {
		os.Exit(9)
	}
	f.WriteString("half of it")
	onInterrupt(func() { os.Remove(f.Name()) })
	syscall.Kill(os.Getpid(), syscall.SIGINT)
	select {}
}

// serial runs scripts one after the other: the directory that a command runs in is the process's.
type serial struct{ *testing.T }

func (serial) Parallel()     {}
func (serial) Verbose() bool { return testing.Verbose() }

func (s serial) Run(name string, f func(testscript.T)) {
	s.T.Run(name, func(t *testing.T) { f(serial{t}) })
}

// TestScripts runs whole commands as a user would. $DEMO holds the demo boats; lines after [all] are for the runs that want all.
func TestScripts(t *testing.T) {
	demo, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	scripts, err := filepath.Abs("testdata/script")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(".") // back to it at the end
	testscript.RunT(serial{t}, testscript.Params{
		Dir:                 scripts,
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("DEMO", demo)
			return nil
		},
		Condition: func(name string) (bool, error) {
			if name != "all" {
				return false, fmt.Errorf("unknown condition %q", name)
			}
			return turns.All(), nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status": status, "page": keepsToPage, "isjson": isJSON, "iscsv": isCSV, "empty": empty,
		},
	})
}

// status N COMMAND... runs a command that must end with exit status N: the program inside this process, or as one of its own where it
// reads standard input, and any other command.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N COMMAND...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	var got int
	var stdout, stderr string
	if args[1] == "hushwake" && !slices.Contains(args, boatfile.Dash) {
		got, stdout, stderr = inside(ts, args[2:])
	} else {
		got, stdout, stderr = beside(ts, args[1:])
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d\nstdout: %s\nstderr: %s", got, want, stdout, stderr)
	}
	for _, bad := range []string{"panic:", "goroutine ", "NaN", "+Inf", "-Inf", "%!"} {
		if strings.Contains(stdout+stderr, bad) {
			ts.Fatalf("%q is printed", bad)
		}
	}
}

// inside runs the program as main does, in the script's directory, with what its environment says.
func inside(ts *testscript.TestScript, args []string) (status int, stdout, stderr string) {
	ts.Check(os.Chdir(ts.MkAbs(".")))
	var out, said strings.Builder
	status = run(args, streams{in: strings.NewReader(""), out: io.MultiWriter(&out, ts.Stdout()), err: io.MultiWriter(&said, ts.Stderr()),
		columns: columns(nil, ts.Getenv("COLUMNS")), plain: plain(ts.Getenv("LC_ALL"), ts.Getenv("LC_CTYPE"), ts.Getenv("LANG"))})
	return status, out.String(), said.String()
}

// beside runs a command as a process of its own.
func beside(ts *testscript.TestScript, command []string) (status int, stdout, stderr string) {
	var exit *exec.ExitError
	if err := ts.Exec(command[0], command[1:]...); errors.As(err, &exit) {
		status = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	return status, ts.ReadFile("stdout"), ts.ReadFile("stderr")
}

// keepsToPage demands that stdout is not empty and keeps to the page.
func keepsToPage(ts *testscript.TestScript, _ bool, _ []string) {
	text := ts.ReadFile("stdout")
	if strings.TrimSpace(text) == "" {
		ts.Fatalf("nothing is printed")
	}
	for _, l := range strings.Split(text, "\n") {
		if n := utf8.RuneCountInString(l); n > pageWidth {
			ts.Fatalf("%d columns: %s", n, l)
		}
		if strings.TrimRight(l, " ") != l {
			ts.Fatalf("blanks at the end of: %s", l)
		}
	}
}

// isJSON demands one JSON document.
func isJSON(ts *testscript.TestScript, _ bool, _ []string) {
	if !json.Valid([]byte(ts.ReadFile("stdout"))) {
		ts.Fatalf("no JSON")
	}
}

// isCSV HEADER demands a table with that header and at least one full row.
func isCSV(ts *testscript.TestScript, _ bool, args []string) {
	rows, err := csv.NewReader(strings.NewReader(ts.ReadFile("stdout"))).ReadAll()
	ts.Check(err)
	if len(rows) < 2 {
		ts.Fatalf("no rows")
	}
	if got := strings.Join(rows[0], ","); len(args) > 0 && got != args[0] {
		ts.Fatalf("header %s, want %s", got, args[0])
	}
}

// empty demands that the last command said nothing on stderr.
func empty(ts *testscript.TestScript, _ bool, _ []string) {
	if text := ts.ReadFile("stderr"); text != "" {
		ts.Fatalf("stderr: %s", text)
	}
}
