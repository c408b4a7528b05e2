package verify

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// checksFile is where a package binds the rows that check it.
const checksFile = "checks.go"

// Names that a row may use though no prediction does: inputs of checks, not models (OctaveRow reads the very table that a
// sound power subtracts, Fits runs the panel model over the table of rows), and values that predictions come by in
// another way: from a bool, an engine's own fuel, an image source.
var media = map[string]bool{"fourpole.StandardAir": true, "source.octaveTerms": true, "panel.surfaceFits": true, "cycle.diesel": true,
	"fourpole.FullCorrections": true, "room.Diffuse": true, "outdoor.rigidGround": true,
	// two junctions of the table that the T is taken from; a hull has none of them
	"structure.crossTransmission": true, "structure.cornerTransmission": true}

// A published check counts only if it runs code that predictions run: every function that a checks.go calls is also
// called by code that is neither a check nor a test.
func TestChecksRunWhatPredictionsRun(t *testing.T) {
	packages := module(t)
	require.NotEmpty(t, packages)
	for _, name := range unreached(packages) {
		assert.True(t, media[name], "%s is checked, and no prediction calls it", name)
	}
	for name := range media {
		assert.Contains(t, unreached(packages), name, "it is called: no exception is needed")
	}
}

// The test above sees a check of what nobody else calls: a function of its own package, one of another, a method.
func TestChecksOfWhatNothingCallsAreSeen(t *testing.T) {
	files := func(checks string) []sources {
		return []sources{
			{name: "duct", files: map[string]*ast.File{"duct.go": parsed(t, `package duct
				type Duct struct{}
				func (Duct) Loss() {}
				func (Duct) Noise() {}
				func Bend() {}
				func mitre() {}
				func Usual() Duct { Bend(); return Duct{} }`),
				checksFile: parsed(t, `package duct
				func own() {}
				func all() { own(); `+checks+` }`)}},
			{name: "boat", files: map[string]*ast.File{"boat.go": parsed(t, `package boat
				import "hushwake/silencer/duct"
				func Predict() { duct.Usual().Loss() }`)}},
		}
	}
	assert.Empty(t, unreached(files("Usual().Loss(); Bend()")))
	assert.Equal(t, []string{"duct.mitre"}, unreached(files("mitre(); Bend()")))
	assert.Equal(t, []string{".Noise"}, unreached(files("Usual().Noise()")))
	elsewhere := files("")
	elsewhere[1].files[checksFile] = parsed(t, "package boat\nimport \"hushwake/silencer/duct\"\nvar x = duct.Mitre()")
	assert.Equal(t, []string{"duct.Mitre"}, unreached(elsewhere))
}

// Every package that binds rows is joined here, and binds them under its own name or that of a package before it.
func TestEveryOwnerIsJoined(t *testing.T) {
	bound := 0
	for _, p := range module(t) {
		if p.files[checksFile] != nil {
			bound++
		}
	}
	require.Len(t, owners, bound)
	all, err := allChecks()
	require.NoError(t, err)
	sum := 0
	for _, o := range owners {
		sum += len(o)
	}
	require.Len(t, all, sum)
}

// sources are the files of one package without its tests.
type sources struct {
	name  string
	files map[string]*ast.File
}

func parsed(t *testing.T, text string) *ast.File {
	f, err := parser.ParseFile(token.NewFileSet(), "", text, 0)
	require.NoError(t, err)
	return f
}

// module parses all packages of the module.
func module(t *testing.T) (all []sources) {
	at := map[string]int{}
	root := filepath.Join("..", "..", "..")
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		i, ok := at[filepath.Dir(path)]
		if !ok {
			i = len(all)
			at[filepath.Dir(path)], all = i, append(all, sources{file.Name.Name, map[string]*ast.File{}})
		}
		all[i].files[filepath.Base(path)] = file
		return nil
	}))
	return all
}

// unreached names what the checks use and no other code does.
func unreached(packages []sources) (names []string) {
	checks, code := map[string]bool{}, map[string]bool{}
	for _, p := range packages {
		own := p.declared()
		for name, file := range p.files {
			if name == checksFile {
				addCalls(file, own, checks)
			} else {
				addCalls(file, own, code)
			}
		}
	}
	for name := range checks {
		if _, method, _ := strings.Cut(name, "."); !code[name] && !code["."+method] {
			names = append(names, name)
		}
	}
	sort.Strings(names)
	return names
}

// declared are the names that a package declares outside its checks.
func (p sources) declared() map[string]bool {
	own := map[string]bool{}
	for name, file := range p.files {
		for object := range file.Scope.Objects {
			own[object] = own[object] || name != checksFile
		}
	}
	return own
}

// addCalls notes every name of another package of this module that a file uses as pkg.Name, every method called as
// .Name, and every name of its own package as pkg.Name.
func addCalls(file *ast.File, own, into map[string]bool) {
	ours, packages := map[string]bool{}, map[string]bool{}
	for _, i := range file.Imports {
		path := strings.Trim(i.Path.Value, `"`)
		name := path[strings.LastIndex(path, "/")+1:]
		packages[name], ours[name] = true, strings.HasPrefix(path, "hushwake/") && name != "published"
	}
	called, declared := map[ast.Node]bool{}, map[*ast.Ident]bool{}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			called[n.Fun] = true
		case *ast.FuncDecl:
			declared[n.Name] = true
		case *ast.TypeSpec:
			declared[n.Name] = true
		case *ast.ValueSpec:
			for _, name := range n.Names {
				declared[name] = true
			}
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok {
				declared[key] = true // a field
			}
		}
		return true
	})
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			x, ok := n.X.(*ast.Ident)
			if ok && ours[x.Name] {
				into[x.Name+"."+n.Sel.Name] = true
				return false
			}
			if called[n] && !(ok && packages[x.Name]) {
				into["."+n.Sel.Name] = true // a method
			}
			declared[n.Sel] = true
		case *ast.Ident:
			if !declared[n] && own[n.Name] {
				into[file.Name.Name+"."+n.Name] = true
			}
		}
		return true
	})
}
