package loss

import (
	"bytes"
	"embed"
	"encoding/csv"
	"fmt"
	"sort"
	"strconv"
	"strings"
)

//go:embed tables/*.csv
var tableFiles embed.FS

// readTable gives the data rows of an embedded table; the files are part of the program, so that a
// fault in one is a fault of the build.
func readTable(name string) [][]string {
	text, err := tableFiles.ReadFile("tables/" + name)
	if err != nil {
		panic(err)
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		panic(err)
	}
	return rows[1:]
}

func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic(err)
	}
	return v
}

// find looks a material up; the error lists what is known.
func find[T any](table map[string]T, what, name string) (T, error) {
	if v, ok := table[strings.ToLower(strings.TrimSpace(name))]; ok {
		return v, nil
	}
	var zero T
	return zero, fmt.Errorf("no %s is known of %q\nhint: known are %s", what, name, strings.Join(names(table), ", "))
}

func names[T any](table map[string]T) []string {
	all := make([]string, 0, len(table))
	for k := range table {
		all = append(all, k)
	}
	sort.Strings(all)
	return all
}
