// Package testdata embeds the demo boats, the published check rows, the measured cases and the finite-element curves.
package testdata

import (
	"bytes"
	"embed"
	"encoding/csv"
	"fmt"
	"io/fs"
	"sort"
	"strconv"
	"strings"
)

// Files holds the demo boats.
//
//go:embed *.yaml
var Files embed.FS

// Proof holds check rows, finite-element curves and measured cases apart: a program that asks for none does not carry them.
//
//go:embed checks fem measured/*.yaml
var Proof embed.FS

// Check is one published value that the program must reproduce.
type Check struct {
	ID        string // area/name, unique
	What      string
	Source    string // edition, section, table
	Mark      string // read | from memory | derived
	Function  string // name in the map Checks of the package that it checks
	Args      []float64
	Expected  float64
	Tolerance float64 // absolute, in the unit of Expected
	Unit      string
}

// Checks reads the rows of checks/*.csv in the order of file name and line. Columns:
// id,what,source,mark,function,args,expected,tolerance,unit; args are separated by spaces; lines
// that begin with # are remarks.
func Checks() ([]Check, error) {
	names, err := fs.Glob(Proof, "checks/*.csv")
	if err != nil {
		return nil, err
	}
	sort.Strings(names)
	var all []Check
	for _, name := range names {
		rows, err := readChecks(name)
		if err != nil {
			return nil, err
		}
		all = append(all, rows...)
	}
	return all, nil
}

func readChecks(name string) ([]Check, error) {
	text, err := Proof.ReadFile(name)
	if err != nil {
		return nil, err
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', 9
	records, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var rows []Check
	for i, f := range records {
		if i == 0 && f[0] == "id" {
			continue
		}
		c, err := parseCheck(f)
		if err != nil {
			return nil, fmt.Errorf("%s: row %s: %w", name, f[0], err)
		}
		rows = append(rows, c)
	}
	return rows, nil
}

func parseCheck(f []string) (c Check, err error) {
	c = Check{ID: f[0], What: f[1], Source: f[2], Mark: f[3], Function: f[4], Unit: f[8]}
	for _, a := range strings.Fields(f[5]) {
		v, err := strconv.ParseFloat(a, 64)
		if err != nil {
			return c, err
		}
		c.Args = append(c.Args, v)
	}
	if c.Expected, err = strconv.ParseFloat(f[6], 64); err != nil {
		return c, err
	}
	c.Tolerance, err = strconv.ParseFloat(f[7], 64)
	return c, err
}
