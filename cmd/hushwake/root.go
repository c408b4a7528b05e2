package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
)

// streams are the three ends of a command, with what the terminal shows.
type streams struct {
	in       io.Reader
	out, err io.Writer
	columns  int  // 0 = no terminal
	plain    bool // letters of plain text alone
	kept     bool // the output goes into a file
}

// common holds the flags that every command takes.
type common struct {
	streams
	format, units       string
	quiet, ignore, full bool // ignore: the readings of the file
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
	statusOverLimit = 1 // also: a measured row lies far outside, with --strict
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
	out := &sticky{w: s.out}
	s.out, s.err = &visible{w: out}, &visible{w: s.err}
	root := newRoot(s)
	root.SetArgs(args)
	err := root.Execute()
	if out.err != nil {
		err = failed("writing the output: %w", out.err)
	}
	if err == nil {
		return statusDone
	}
	return complain(s.err, err)
}

// sticky remembers the first error of the output, so that a full disk is not taken for success. A reader that has seen
// enough and left, such as head, is no error: the rest is for nobody.
type sticky struct {
	w    io.Writer
	err  error
	left bool
}

func (s *sticky) Write(p []byte) (int, error) {
	if s.err != nil || s.left {
		return len(p), s.err
	}
	n, err := s.w.Write(p)
	if s.left = errors.Is(err, syscall.EPIPE); s.left {
		return len(p), nil
	}
	s.err = err
	return n, err
}

// visible shows what is hidden in a name; in JSON that is the same name.
type visible struct {
	w    io.Writer
	rest []byte // of a letter that isn't whole yet
}

func (v *visible) Write(p []byte) (int, error) {
	text := append(v.rest, p...)
	end := len(text)
	for back := 1; back < utf8.UTFMax && back <= end; back++ {
		if b := text[end-back]; utf8.RuneStart(b) {
			if !utf8.FullRune(text[end-back:]) {
				end -= back
			}
			break
		}
	}
	v.rest = append([]byte(nil), text[end:]...)
	if _, err := io.WriteString(v.w, form.Visible(string(text[:end]))); err != nil {
		return 0, err
	}
	return len(p), nil
}

// complain prints an error once and maps it to the exit status.
func complain(w io.Writer, err error) int {
	var problems *decode.Errors
	if errors.As(err, &problems) {
		fmt.Fprintln(w, strings.TrimRight(problems.Error(), "\n"))
		return statusBadInput
	}
	fmt.Fprintf(w, "hushwake: %s\n", err)
	var e *exitError
	if errors.As(err, &e) {
		return e.status
	}
	if f := (*form.Failure)(nil); errors.As(err, &f) {
		return statusFailed
	}
	return statusBadInput
}

func newRoot(s streams) *cobra.Command {
	c := &common{streams: s}
	root := &cobra.Command{
		Use:   "hushwake",
		Short: "What an engine exhaust on a boat will sound like, and what that costs the engine",
		Long: `What an engine exhaust on a boat will sound like, and what that costs the engine.

Begin with: hushwake start dry-stack, change the file to your boat, then: hushwake compare dry-stack.yaml

Results go to stdout, everything else to stderr. No colour is ever printed, so NO_COLOR changes nothing.
Text is as wide as the terminal, or as COLUMNS says, from 72 to 120 columns; 100 where there is neither.
FILE may be -, which reads a boat file from stdin.
Exit status: 0 done; 1 over a limit, with --fail-over-limit, or far off a measured row, with --strict; 2 bad input; 3 could not write, or another failure.`,
		Version:       form.Version,
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          cobra.ArbitraryArgs,
		RunE:          runRoot,
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
	f.BoolVar(&c.ignore, "ignore-readings", false, "leave the readings of the file out: what the model alone says")
	f.BoolVar(&c.full, "full", false, "tell all: of compare every table and sentence, of line the formulas, of each command every warning in full")
	f.BoolVar(&c.quiet, "quiet", false, "no warnings or remarks on stderr")
	root.SetFlagErrorFunc(flagError)
	root.AddCommand(commands(c)...)
	help := newHelp(c)
	root.SetHelpCommand(help)
	for _, cmd := range append(root.Commands(), help) {
		cmd.Example = examples[cmd.Name()]
	}
	complete(root)
	root.InitDefaultCompletionCmd()
	if scripts, _, err := root.Find([]string{"completion"}); err == nil {
		scripts.Example = examples["completion"]
	}
	return root
}

// runRoot prints help where no command is named, and the nearest one where it is unknown.
func runRoot(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return cmd.Help()
	}
	var names []string
	for _, c := range cmd.Commands() {
		names = append(names, c.Name())
	}
	hint := "'hushwake help' lists them"
	if near := spelling.Nearest(args[0], names); near != "" {
		hint = "did you mean " + near + "? " + hint
	}
	return badInput("no command %q\nhint: %s", args[0], hint)
}

// flagError names the nearest flag.
func flagError(cmd *cobra.Command, err error) error {
	text := err.Error()
	hint := fmt.Sprintf("'%s --help' lists the flags", cmd.CommandPath())
	if _, flag, ok := strings.Cut(text, "unknown flag: --"); ok {
		var names []string
		visit := func(f *pflag.Flag) { names = append(names, f.Name) }
		cmd.Flags().VisitAll(visit)
		cmd.InheritedFlags().VisitAll(visit)
		if near := spelling.Nearest(flag, names); near != "" {
			hint = "did you mean --" + near + "? " + hint
		}
	}
	if m := unread.FindStringSubmatch(text); m != nil {
		wanted := map[string]string{"ParseUint": "a whole number from 0 on", "ParseInt": "a whole number", "ParseFloat": "a number", "ParseBool": "true or false"}[m[3]]
		text = fmt.Sprintf("%s %s: %s is wanted", m[2], m[1], wanted)
	}
	return badInput("%s\nhint: %s", text, hint)
}

// unread is how a flag's value fails to be read: the value, the flag, what it was read as.
var unread = regexp.MustCompile(`^invalid argument "(.*)" for "(.*)" flag: strconv\.(Parse(?:Uint|Int|Float|Bool)): `)

func (c *common) check() error {
	if err := oneOf("--format", c.format, "table", "json", "csv"); err != nil {
		return err
	}
	return oneOf("--units", c.units, "metric", "imperial")
}

func oneOf(flag, got string, allowed ...string) error {
	if slices.Contains(allowed, got) {
		return nil
	}
	return badInput("%s is %q\nhint: it takes %s", flag, got, strings.Join(allowed, ", "))
}

// load reads a boat file, or stdin where its name is a dash.
func (c *common) load(name string) (b *path.Boat, err error) {
	if name == boatfile.Dash {
		b, err = boatfile.Read(boatfile.StandardInput, c.in)
	} else {
		b, err = boatfile.LoadFile(name)
	}
	if err != nil {
		var problems *decode.Errors
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

// know works out what is known of layouts of a boat, all where none is named, after its readings.
func (c *common) know(b *path.Boat, d draws.Options, layouts ...*path.Layout) (*readings.Known, error) {
	return report.Know(b, readings.Options{Options: d, Ignore: c.ignore, Layouts: layouts})
}

// inUnits is the unit system asked for; check has already refused others.
func (c *common) inUnits() form.Units {
	s, _ := quantity.ParseSystem(c.units)
	return form.Units{System: s}
}

// remark prints a line on stderr unless --quiet.
func (c *common) remark(format string, args ...any) {
	if !c.quiet {
		fmt.Fprintf(c.err, format+"\n", args...)
	}
}
