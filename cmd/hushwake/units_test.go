package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// unitsOf are the units in which arguments of these names may stand; the comment names one of them. Of an argument with
// another name it names any.
var unitsOf = []struct{ names, units string }{
	{"bore length diameter width height depth thick thickness radius distance reach lx ly pipe tubeOuter smallBore largeBore hoseBore hoseLength maxLength maxDiameter", "m mm bores"},
	{"area s upArea downArea open neckArea inner outer", "m2"},
	{"volume", "m3"},
	{"temperature ambient skin ts ambientTemperature temperatureK", "K"},
	{"pressure drop pressurePa boxPressure entered", "Pa"},
	{"flow water waterFlow gasFlow", "kg/s m3/s"},
	{"velocity gasVelocity u soundSpeed cL", "m/s"},
	{"speed rated", "m/s rpm share"},
	{"density gasDensity waterDensity", "kg/m3"},
	{"viscosity gasViscosity", "Pa"},
	{"f frequency fc f0 firing", "Hz"},
	{"omega", "rad/s"},
	{"level lw tl tone noise speech disturbance db running room seat", "dB"},
	{"mass m m1 m2", "kg kg/m2"},
	{"power heat", "W hp MW deviations"},
	{"angle theta heel", "rad"},
	{"resistivity at20", "s/m2"},
	{"impedance", "c s/m"},
	{"stiffness", "N/m"},
	{"hours", "h hours"},
	{"mach", "number"},
}

// TestRepeatedFloatsHaveUnits reads the source: where a function of a package takes several plain numbers, a call can swap
// them unseen, so its comment says in what unit each is. Helpers of tests are left out.
func TestRepeatedFloatsHaveUnits(t *testing.T) {
	allowed, all := map[string]string{}, "rad pixels unit units share ratio factor numbers plain"
	for _, u := range unitsOf {
		for _, n := range strings.Fields(u.names) {
			allowed[n] = u.units
		}
		all += " " + u.units
	}
	seen := 0
	for _, f := range exportedOverFloats(t) {
		seen++
		words := map[string]bool{}
		for _, w := range unitWord.FindAllString(f.comment, -1) {
			words[w] = true
		}
		for _, p := range f.params {
			units := allowed[p]
			if units == "" {
				units = all
			}
			assert.True(t, slices.ContainsFunc(strings.Fields(units), func(u string) bool { return words[u] }),
				"%s: the comment says no unit (%s) of %s", f.where, units, p)
		}
	}
	require.Greater(t, seen, 100)
}

// unitWord is a word or a unit in a comment.
var unitWord = regexp.MustCompile(`[A-Za-z][A-Za-z0-9/]*`)

type floated struct {
	where, comment string
	params         []string
}

// exportedOverFloats are the functions of the module with two plain numbers or more as arguments that are exported or held
// against published rows.
func exportedOverFloats(t *testing.T) []floated {
	var all []floated
	held := map[string]map[string]bool{} // of a directory, what its published rows call
	for _, top := range []string{"source", "silencer", "path", "charts"} {
		require.NoError(t, filepath.WalkDir(filepath.Join("..", "..", top), func(file string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") || d.Name() == "checks.go" || strings.HasSuffix(filepath.Dir(file), "test") {
				return err
			}
			dir := filepath.Dir(file)
			if held[dir] == nil {
				held[dir] = calledIn(filepath.Join(dir, "checks.go"))
			}
			set := token.NewFileSet()
			parsed, err := parser.ParseFile(set, file, nil, parser.ParseComments)
			require.NoError(t, err)
			for _, decl := range parsed.Decls {
				if f, ok := decl.(*ast.FuncDecl); ok && (f.Name.IsExported() || f.Recv == nil && held[dir][f.Name.Name]) {
					if p := floatParams(f); len(p) > 1 {
						all = append(all, floated{fmt.Sprintf("%s:%d %s", file, set.Position(f.Pos()).Line, f.Name.Name), f.Doc.Text(), p})
					}
				}
			}
			return nil
		}))
	}
	return all
}

// calledIn are the functions that a file calls; none without the file.
func calledIn(file string) map[string]bool {
	names := map[string]bool{}
	text, _ := os.ReadFile(file)
	for _, call := range called.FindAllStringSubmatch(string(text), -1) {
		names[call[1]] = true
	}
	return names
}

var called = regexp.MustCompile(`\b(\w+)\(`)

func floatParams(f *ast.FuncDecl) []string {
	var names []string
	for _, field := range f.Type.Params.List {
		if id, ok := field.Type.(*ast.Ident); ok && id.Name == "float64" {
			for _, n := range field.Names {
				names = append(names, n.Name)
			}
		}
	}
	return names
}
