// Package verify computes published values with the code that predictions run. They are rows of testdata/checks/<area>.csv;
// the package that a row checks binds its function name to code, in the map Checks of its checks.go. A row whose name
// nobody binds fails loudly.
package verify

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"strings"

	"hushwake/source/published"
	"hushwake/testdata"
)

// Verdicts of a check.
const (
	Holds = "holds"
	fails = "fails"
)

// Result is one published value beside ours.
type Result struct {
	ID, What, Source, Mark string
	Unit                   string
	Expected, Tolerance    float64
	Ours                   *float64 // nil when our code gave no value
	Verdict                string   // holds | fails
	Note                   string   // why there is no value
}

// Report is the outcome of all published checks.
type Report struct {
	Checks       []Result
	Passed       int
	Failed       int
	Sources      []string // distinct works behind the rows that were not derived here
	NotValidated []string
}

// NotValidated says in plain words what no check of the program covers.
var NotValidated = []string{
	"No boat was measured before and after a change; single levels are held against the record of measured boats (hushwake verify --measured).",
	"No measured comparison of a wet exhaust with a dry one on the same boat was found: wet against dry carries a wide band.",
	"Measured transmission loss of a real silencer of known inside dimensions with hot flow was not available; the elements are checked against closed forms and finite elements without flow.",
	"Perforates and packing with hot grazing flow are checked only against other calculations.",
	"Sound through mounts, shaft and hull is built of published forms and judged figures: no boat measured before and after a change of its mounts was available.",
	"Centred parts are assumed wherever no offset is stated; offset and flow-reversal chambers have no reference here.",
	"Flow noise of silencers and splashing water rests on trade formulas with a spread of several decibels.",
	"The uncertainty figures are partly judgement: the band is as good as they are.",
}

// Run computes every published row with the code of this program.
func Run() (Report, error) {
	rows, functions, err := bound()
	if err != nil {
		return Report{}, err
	}
	return verifyRows(rows, functions), nil
}

// Headline computes the rows of each source up to the first that holds: what sort of proof there is, in a quarter of the
// time of Run.
func Headline() (out []Result, err error) {
	rows, functions, err := bound()
	held := map[string]bool{}
	for _, row := range rows {
		if !held[row.Source] {
			c := verifyRow(row, functions[row.Function])
			out, held[row.Source] = append(out, c), c.Verdict == Holds
		}
	}
	return out, err
}

// bound is the published rows and the code that they are bound to.
func bound() ([]testdata.Check, published.Values, error) {
	rows, err := testdata.Checks()
	if err != nil {
		return nil, nil, fmt.Errorf("reading the published checks: %w", err)
	}
	functions, err := allChecks()
	if err != nil {
		return nil, nil, err
	}
	return rows, functions, nil
}

// allChecks merges the maps of the owners; the same name twice is an error.
func allChecks() (published.Values, error) {
	all := published.Values{}
	for _, m := range owners {
		for name, f := range m {
			if _, twice := all[name]; twice {
				return nil, fmt.Errorf("check function %q is bound twice", name)
			}
			all[name] = f
		}
	}
	return all, nil
}

func verifyRows(rows []testdata.Check, functions published.Values) (r Report) {
	seen := map[string]bool{}
	for _, row := range rows {
		c := verifyRow(row, functions[row.Function])
		if c.Verdict == Holds {
			r.Passed++
		} else {
			r.Failed++
		}
		r.Checks = append(r.Checks, c)
		if p := publication(row.Source); row.Mark != "derived" && !seen[p] {
			seen[p] = true
			r.Sources = append(r.Sources, p)
		}
	}
	sort.Strings(r.Sources)
	r.NotValidated = append([]string(nil), NotValidated...)
	return r
}

func verifyRow(row testdata.Check, f published.Value) Result {
	c := Result{ID: row.ID, What: row.What, Source: row.Source, Mark: row.Mark, Unit: row.Unit,
		Expected: row.Expected, Tolerance: row.Tolerance, Verdict: fails}
	ours, err := callCheck(row.Function, f, row.Args)
	if err != nil {
		c.Note = err.Error()
		return c
	}
	c.Ours = &ours
	// The slack is for the rounding of decimal numbers in binary, nothing else.
	if slack := 1e-12 * math.Abs(row.Expected); math.Abs(ours-row.Expected) <= row.Tolerance+slack {
		c.Verdict = Holds
	}
	return c
}

// callCheck calls f and turns a missing function, a panic (too few arguments in a row) or a value
// that is not finite into an error.
func callCheck(name string, f published.Value, args []float64) (v float64, err error) {
	if f == nil {
		return 0, fmt.Errorf("no package binds %q", name)
	}
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%s: %v", name, p)
		}
	}()
	v, err = f(args)
	if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
		err = errors.New(name + ": the result is not a finite number")
	}
	return v, err
}

// publication is the part of a source line that names the work: up to the first comma,
// semicolon or bracket.
func publication(source string) string {
	if i := strings.IndexAny(source, ",;([:"); i > 0 {
		source = source[:i]
	}
	return strings.TrimSpace(source)
}
