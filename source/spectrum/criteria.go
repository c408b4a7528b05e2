package spectrum

import (
	_ "embed"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"hushwake/source/said"
)

//go:embed criteria.csv
var criteriaText string

// Criterion is a level that a prediction can be compared with.
type Criterion struct {
	Kind    string  // exposure | place | pass-by | state test | harbour
	Name    string  // what or where
	Limit   float64 // dB in Unit
	Unit    string  // e.g. "dB(A) LEX 8h"
	Source  string
	Mark    string   // read | from memory | common practice
	Binding bool     // law for those named in Text; false = guidance
	Text    string   // whom it binds, or how to take it
	Words   []string // a place whose name holds one of them is compared with it
	// Over and To bound the rated power it is for, W: over < power <= to; +Inf = no bound.
	Over, To float64
}

// Standing is "binding" or "guidance".
func (c Criterion) Standing() string {
	if c.Binding {
		return "binding"
	}
	return "guidance"
}

var criteria = mustCriteria(criteriaText)

// mustCriteria fails only if the program itself was built wrong.
func mustCriteria(text string) []Criterion {
	c, err := readCriteria(text)
	if err != nil {
		panic("embedded criteria: " + err.Error())
	}
	return c
}

func readCriteria(text string) (all []Criterion, err error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', 11
	records, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	for _, f := range records[1:] {
		c := Criterion{Kind: f[0], Name: f[1], Unit: f[3], Source: f[4], Mark: f[5], Binding: f[6] == "yes", Text: said.Marked(f[7]), To: math.Inf(1)}
		c.Limit, err = strconv.ParseFloat(f[2], 64)
		err = errors.Join(err, power(f[9], &c.Over), power(f[10], &c.To))
		if err != nil {
			return nil, fmt.Errorf("criterion %q: %w", c.Name, err)
		}
		if f[8] != "" {
			c.Words = strings.Split(f[8], "|")
		}
		all = append(all, c)
	}
	return all, nil
}

// power reads kW into W; empty leaves what stands there.
func power(text string, to *float64) error {
	if text == "" {
		return nil
	}
	kw, err := strconv.ParseFloat(text, 64)
	*to = 1e3 * kw
	return err
}

// Criteria are those of a kind, in the order of the table.
func Criteria(kind string) (of []Criterion) {
	for _, c := range criteria {
		if c.Kind == kind {
			of = append(of, c)
		}
	}
	return of
}

// CriteriaFor are those that a place is compared with by its name, in the order of the table.
func CriteriaFor(place string) (fit []Criterion) {
	place = strings.ToLower(place)
	for _, c := range criteria {
		if slices.ContainsFunc(c.Words, func(w string) bool { return strings.Contains(place, w) }) {
			fit = append(fit, c)
		}
	}
	return fit
}

// PassBy is what new craft with engines of a rated power are held to, W.
func PassBy(power float64) (Criterion, bool) {
	for _, c := range Criteria("pass-by") {
		if power > c.Over && power <= c.To {
			return c, true
		}
	}
	return Criterion{}, false
}
