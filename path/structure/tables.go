package structure

import (
	_ "embed" // the tables
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

//go:embed materials.csv
var materialsText string

//go:embed bridges.csv
var bridgesText string

//go:embed mounts.csv
var mountsText string

// Material is what a hull is built of.
type Material struct {
	Name    string
	Words   string     // as the interview asks for it; "" = it does not
	Density float64    // kg/m3
	Speed   float64    // m/s, quasi-longitudinal waves in a plate
	Damping float64    // loss factor in place
	Plates  [2]float64 // m: of the engine space, of spaces further on
	Bed     Bed
	Field   [2]float64 // m, between frames
	Source  string
	Mark    string
}

// materials lists what is known, in the order of materials.csv.
var materials = mustMaterials(materialsText)

// MaterialNames are the words for Materials, in the order of the table.
func MaterialNames() (names []string) {
	for _, m := range materials {
		names = append(names, m.Name)
	}
	return names
}

// MaterialNamed finds one of Materials.
func MaterialNamed(name string) (Material, bool) {
	for _, m := range materials {
		if m.Name == name {
			return m, true
		}
	}
	return Material{}, false
}

// DampedLoss is the loss factor of plates that carry a damping layer (judgement).
const DampedLoss = 0.05

// mustMaterials reads the embedded table; a fault in it is a fault of the build.
func mustMaterials(text string) []Material {
	rows, err := readMaterials(text)
	if err != nil {
		panic(err)
	}
	return rows
}

func readMaterials(text string) (out []Material, err error) {
	rows, err := records(text, 14)
	if err != nil {
		return nil, fmt.Errorf("hull materials: %w", err)
	}
	for _, row := range rows {
		v, err := positives(row[2:12])
		if err != nil {
			return nil, fmt.Errorf("hull material %s: %w", row[0], err)
		}
		m := Material{Name: row[0], Words: row[1], Density: v[0], Speed: v[1], Damping: v[2], Plates: [2]float64{v[3] / 1e3, v[4] / 1e3},
			Field: [2]float64{v[8], v[9]}, Source: row[12], Mark: row[13]}
		m.Bed = Bed{Depth: v[5] / 1e3, Width: v[6] / 1e3, Cap: v[7] / 1e3}
		out = append(out, m)
	}
	return out, nil
}

// shares are those of bridges.csv by part and kind, dB.
var shares = mustShares(bridgesText)

func mustShares(text string) map[string]map[string]float64 {
	rows, err := records(text, 3)
	out := map[string]map[string]float64{}
	for _, row := range rows {
		v, e := strconv.ParseFloat(row[2], 64)
		if e != nil || v >= 0 {
			err = fmt.Errorf("bridge %s %s: the share %q must be a number of dB below zero", row[0], row[1], row[2])
		}
		if out[row[0]] == nil {
			out[row[0]] = map[string]float64{}
		}
		out[row[0]][row[1]] = v
	}
	if err != nil {
		panic(err)
	}
	return out
}

// mustMounts reads the kinds of mounts; a fault in the table is one of the build.
func mustMounts(text string) (kinds map[Kind]mountKind, names []string) {
	rows, err := records(text, 5)
	kinds = map[Kind]mountKind{}
	for _, row := range rows {
		v, e := positives(row[3:])
		mm, bad := strconv.ParseFloat(row[2], 64)
		if e != nil || bad != nil || !(mm >= 0) || mm/1e3 > MostDeflection {
			panic(fmt.Errorf("mounts %s: deflection %q, stiffness %q", row[0], row[2], row[3:]))
		}
		kinds[Kind(row[0])], names = mountKind{row[1], mm / 1e3, v[0], v[1]}, append(names, row[0])
	}
	if err != nil {
		panic(err)
	}
	return kinds, names
}

// records reads a table without its remarks and head.
func records(text string, fields int) ([][]string, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', fields
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		return nil, fmt.Errorf("no rows: %w", err)
	}
	return rows[1:], nil
}

func positives(fields []string) (out []float64, err error) {
	for _, f := range fields {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil || !(v > 0) {
			return nil, fmt.Errorf("%q must be a number above zero", f)
		}
		out = append(out, v)
	}
	return out, nil
}
