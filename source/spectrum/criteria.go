package spectrum

import (
	_ "embed"
	"encoding/csv"
	"strconv"
	"strings"
)

//go:embed criteria.csv
var criteriaText string

// Criterion is a level that a prediction can be compared with.
type Criterion struct {
	Kind    string  // exposure | place | pass-by | harbour
	Name    string  // what or where
	Limit   float64 // dB in Unit
	Unit    string  // e.g. "dB(A) LEX 8h"
	Source  string
	Mark    string // read | from memory | common practice
	Binding bool   // law for those named in Text; false = guidance
	Text    string // whom it binds, or how to take it
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
	r.Comment, r.FieldsPerRecord = '#', 8
	records, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	for _, f := range records[1:] {
		c := Criterion{Kind: f[0], Name: f[1], Unit: f[3], Source: f[4], Mark: f[5], Binding: f[6] == "yes", Text: f[7]}
		if c.Limit, err = strconv.ParseFloat(f[2], 64); err != nil {
			return nil, err
		}
		all = append(all, c)
	}
	return all, nil
}

// FindCriterion gives the criterion of a name.
func FindCriterion(name string) (Criterion, bool) {
	for _, c := range criteria {
		if c.Name == name {
			return c, true
		}
	}
	return Criterion{}, false
}
