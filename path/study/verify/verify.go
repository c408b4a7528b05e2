// Package verify computes published values with the code that predictions run. Every area keeps its published values as
// rows of testdata/checks/<area>.csv and, in <area>.go of this package, one map from function name to a closure that
// calls the real code; a row whose function is not registered fails loudly.
package verify

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"strings"

	"hushwake/testdata"
)

// checkFunc computes our value of a published check from the numbers of its row, in SI.
type checkFunc func(args []float64) (float64, error)

// registries holds the map of every area, in the order the files are initialised.
var registries = []map[string]checkFunc{}

// register enters the map of an area; it is called from package-level variables.
func register(m map[string]checkFunc) struct{} {
	registries = append(registries, m)
	return struct{}{}
}

// Verdicts of a check.
const (
	Holds = "holds"
	Fails = "fails"
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
	rows, err := testdata.Checks()
	if err != nil {
		return Report{}, fmt.Errorf("reading the published checks: %w", err)
	}
	functions, err := allChecks()
	if err != nil {
		return Report{}, err
	}
	return verifyRows(rows, functions), nil
}

// allChecks merges the maps of the areas; the same name twice is an error.
func allChecks() (map[string]checkFunc, error) {
	all := map[string]checkFunc{}
	for _, m := range registries {
		for name, f := range m {
			if _, twice := all[name]; twice {
				return nil, fmt.Errorf("check function %q is registered twice", name)
			}
			all[name] = f
		}
	}
	return all, nil
}

func verifyRows(rows []testdata.Check, functions map[string]checkFunc) (r Report) {
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

func verifyRow(row testdata.Check, f checkFunc) Result {
	c := Result{ID: row.ID, What: row.What, Source: row.Source, Mark: row.Mark, Unit: row.Unit,
		Expected: row.Expected, Tolerance: row.Tolerance, Verdict: Fails}
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
func callCheck(name string, f checkFunc, args []float64) (v float64, err error) {
	if f == nil {
		return 0, fmt.Errorf("no function %q is registered", name)
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
