package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile"
)

// version is printed by --version and in every JSON document of compare.
const version = "0.1.0"

// streams are the three ends of a command.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// common holds the flags that every command takes.
type common struct {
	streams
	format, units string
	quiet         bool
}

// exitError carries an exit status up to the one place that ends the program.
type exitError struct {
	status int
	err    error
}

func (e *exitError) Error() string { return e.err.Error() }
func (e *exitError) Unwrap() error { return e.err }

// Exit statuses of the contract.
const (
	statusDone      = 0
	statusOverLimit = 1
	statusBadInput  = 2
	statusFailed    = 3
)

func badInput(format string, args ...any) error {
	return &exitError{statusBadInput, fmt.Errorf(format, args...)}
}

func failed(format string, args ...any) error {
	return &exitError{statusFailed, fmt.Errorf(format, args...)}
}

// errOverLimit ends a command that was asked to fail over a limit; its text is already printed.
var errOverLimit = &exitError{statusOverLimit, errors.New("a stated limit is exceeded")}

// run executes the command line and gives the exit status.
func run(args []string, s streams) int {
	root := newRoot(s)
	root.SetArgs(args)
	err := root.Execute()
	if err == nil {
		return statusDone
	}
	return report(s.err, err)
}

// report prints an error once and maps it to the exit status.
func report(w io.Writer, err error) int {
	var problems *boatfile.Errors
	if errors.As(err, &problems) {
		fmt.Fprint(w, ensureNewline(problems.Error()))
		return statusBadInput
	}
	fmt.Fprintf(w, "hushwake: %s\n", err)
	var e *exitError
	if errors.As(err, &e) {
		return e.status
	}
	return statusBadInput
}

func ensureNewline(s string) string { return strings.TrimRight(s, "\n") + "\n" }

func newRoot(s streams) *cobra.Command {
	c := &common{streams: s}
	root := &cobra.Command{
		Use:           "hushwake",
		Short:         "What an engine exhaust on a boat will sound like, and what that costs the engine",
		Version:       version,
		SilenceUsage:  true,
		SilenceErrors: true,
		PersistentPreRunE: func(*cobra.Command, []string) error {
			return c.check()
		},
	}
	root.SetIn(s.in)
	root.SetOut(s.out)
	root.SetErr(s.err)
	f := root.PersistentFlags()
	f.StringVar(&c.format, "format", "table", "table, json or csv")
	f.StringVar(&c.units, "units", "metric", "metric or imperial")
	f.BoolVar(&c.quiet, "quiet", false, "no warnings or remarks on stderr")
	root.AddCommand(commands(c)...)
	return root
}

func (c *common) check() error {
	if err := oneOf("--format", c.format, "table", "json", "csv"); err != nil {
		return err
	}
	return oneOf("--units", c.units, "metric", "imperial")
}

func oneOf(flag, got string, allowed ...string) error {
	for _, a := range allowed {
		if got == a {
			return nil
		}
	}
	return badInput("%s is %q\nhint: it takes %s", flag, got, strings.Join(allowed, ", "))
}

// load reads a boat file and prints its warnings.
func (c *common) load(name string) (*path.Boat, error) {
	b, err := boatfile.LoadFile(name)
	if err != nil {
		var problems *boatfile.Errors
		if errors.As(err, &problems) {
			return nil, err
		}
		if errors.Is(err, os.ErrNotExist) {
			return nil, badInput("no file %s\nhint: 'hushwake start dry-stack' writes a commented starter file", name)
		}
		return nil, badInput("%w", err)
	}
	return b, nil
}

// remark prints a line on stderr unless --quiet.
func (c *common) remark(format string, args ...any) {
	if !c.quiet {
		fmt.Fprintf(c.err, format+"\n", args...)
	}
}
