package verify

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Inputs of checks, not models: a row may use them though no prediction does. OctaveRow reads the very table that
// a sound power subtracts, Fits runs the panel model over the table of rows.
var media = map[string]bool{"fourpole.StandardAir": true, "source.OctaveRow": true, "panel.Fits": true}

// A published check counts only if it runs code that predictions run: every function that a check of
// verify_<area>.go calls is also called by code that is neither a check nor a test.
func TestChecksRunWhatPredictionsRun(t *testing.T) {
	checks, code := map[string]bool{}, map[string]bool{}
	root := filepath.Join("..", "..", "..")
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		if filepath.Base(filepath.Dir(path)) == "verify" && filepath.Base(path) != "verify.go" {
			addCalls(file, checks)
		} else {
			addCalls(file, code)
		}
		return nil
	}))
	require.NotEmpty(t, checks)
	for name := range checks {
		from, method, _ := strings.Cut(name, ".")
		if from == "verify" || !ast.IsExported(method) {
			continue
		}
		assert.True(t, code[name] || code["."+method] || media[name], "%s is checked, and no prediction calls it", name)
	}
}

// addCalls notes every name of another package of this module that a file uses as pkg.Name, every
// method called as .Name, and every plain name as both, since a package calls its own without a prefix.
func addCalls(file *ast.File, into map[string]bool) {
	ours := map[string]bool{}
	for _, i := range file.Imports {
		if path := strings.Trim(i.Path.Value, `"`); strings.HasPrefix(path, "hushwake/") {
			ours[path[strings.LastIndex(path, "/")+1:]] = true
		}
	}
	packages, called := map[string]bool{}, map[ast.Node]bool{}
	for _, i := range file.Imports {
		path := strings.Trim(i.Path.Value, `"`)
		packages[path[strings.LastIndex(path, "/")+1:]] = true
	}
	ast.Inspect(file, func(n ast.Node) bool {
		if c, ok := n.(*ast.CallExpr); ok {
			called[c.Fun] = true
		}
		return true
	})
	declared := map[*ast.Ident]bool{}
	for _, d := range file.Decls {
		if f, ok := d.(*ast.FuncDecl); ok {
			declared[f.Name] = true
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			if x, ok := n.X.(*ast.Ident); ok && ours[x.Name] {
				into[x.Name+"."+n.Sel.Name] = true
				return false
			}
			if x, ok := n.X.(*ast.Ident); called[n] && !(ok && packages[x.Name]) {
				into["."+n.Sel.Name] = true // a method
			}
		case *ast.Ident:
			if !declared[n] && file.Name != n && ast.IsExported(n.Name) {
				into[file.Name.Name+"."+n.Name] = true
			}
		}
		return true
	})
}
