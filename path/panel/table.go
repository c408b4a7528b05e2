package panel

import (
	"bytes"
	_ "embed" // the tables
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"hushwake/source/spectrum"
)

//go:embed materials.csv
var materialsCSV []byte

//go:embed absorption.csv
var absorptionCSV []byte

//go:embed measured.csv
var measuredCSV []byte

// lining is one row of absorption coefficients.
type lining struct {
	name         string
	aliases      []string
	thickness    float64 // m, 0 = a surface
	alpha        spectrum.Bands
	source, mark string
}

// Row is one published row of transmission loss.
type Row struct {
	Material     string
	Thickness    float64    // m, 0 = not told
	Second       float64    // m, the other of two leaves on an empty gap; 0 = one leaf
	Gap          [2]float64 // m, from and to
	Mass         float64    // kg/m2, 0 = not told
	Bands        spectrum.Bands
	Known        [spectrum.N]bool
	Use          bool // replaces the model where material and thickness match
	Source, Mark string
	Note         string
}

type tables struct {
	materials []Material
	linings   []lining
	measured  []Row
}

// builtIn reads the embedded tables once; a fault in them is a fault of the build and shows in the tests.
var builtIn = sync.OnceValues(readTables)

func readTables() (t tables, err error) {
	records, err := readCSV(materialsCSV)
	if err != nil {
		return t, fmt.Errorf("materials.csv: %w", err)
	}
	for _, f := range records {
		t.materials = append(t.materials, f.material())
	}
	if records, err = readCSV(absorptionCSV); err != nil {
		return t, fmt.Errorf("absorption.csv: %w", err)
	}
	for _, f := range records {
		t.linings = append(t.linings, f.lining())
	}
	if records, err = readCSV(measuredCSV); err != nil {
		return t, fmt.Errorf("measured.csv: %w", err)
	}
	for _, f := range records {
		t.measured = append(t.measured, f.measured())
	}
	return t, nil
}

// record is a line of a table by the name of its column.
type record map[string]string

func readCSV(text []byte) (out []record, err error) {
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil || len(lines) == 0 {
		return nil, err
	}
	for _, line := range lines[1:] {
		f := record{}
		for i, v := range line {
			f[lines[0][i]] = v
		}
		out = append(out, f)
	}
	return out, nil
}

// number is the value of a column and whether there is one.
func (f record) number(column string) (float64, bool) {
	v, err := strconv.ParseFloat(strings.TrimSpace(f[column]), 64)
	return v, err == nil
}

func (f record) aliases() []string {
	if f["aliases"] == "" {
		return nil
	}
	return strings.Split(f["aliases"], "|")
}

func (f record) material() Material {
	m := Material{Name: f["name"], Aliases: f.aliases(), Kind: Kind(f["kind"]), Source: f["source"], Mark: f["mark"]}
	m.Density, _ = f.number("density")
	m.Critical, _ = f.number("critical")
	m.Damping, _ = f.number("damping")
	m.Plateau, _ = f.number("plateau")
	m.Surface, _ = f.number("surface")
	m.Conductivity, _ = f.number("conductivity")
	m.Resistivity, _ = f.number("resistivity")
	mm, _ := f.number("usual_mm")
	m.UsualThickness = mm / 1e3
	return m
}

func (f record) lining() lining {
	l := lining{name: f["name"], aliases: f.aliases(), source: f["source"], mark: f["mark"]}
	mm, _ := f.number("thickness_mm")
	l.thickness = mm / 1e3
	var row []float64
	for _, column := range []string{"125", "250", "500", "1000", "2000", "4000", "8000"} {
		if v, ok := f.number(column); ok {
			row = append(row, v)
		}
	}
	l.alpha, _ = complete(row)
	if f["taper"] == "yes" {
		l.alpha = lowTaper(l.alpha[spectrum.N-1])
	}
	return l
}

func (f record) measured() Row {
	r := Row{Material: f["material"], Use: f["use"] == "yes", Source: f["source"], Mark: f["mark"], Note: f["note"]}
	mm, _ := f.number("thickness_mm")
	r.Thickness = mm / 1e3
	mm, _ = f.number("second_mm")
	r.Second = mm / 1e3
	fmt.Sscanf(f["gap_mm"], "%g-%g", &r.Gap[0], &r.Gap[1])
	r.Gap[0], r.Gap[1] = r.Gap[0]/1e3, r.Gap[1]/1e3
	r.Mass, _ = f.number("mass")
	for i, column := range []string{"31.5", "63", "125", "250", "500", "1000", "2000", "4000", "8000"} {
		r.Bands[i], r.Known[i] = f.number(column)
	}
	return r
}

// measuredRows gives the published rows of transmission loss.
func measuredRows() []Row {
	t, _ := builtIn()
	return append([]Row(nil), t.measured...)
}
