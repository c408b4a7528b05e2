package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// repository is what the guide speaks of: files and folders by their path and last name, what is declared by its name alone and
// behind its type and its package.
type repository struct{ paths, names, packages map[string]bool }

const root = "../../"

func readRepository(t *testing.T) repository {
	r := repository{map[string]bool{}, map[string]bool{}, map[string]bool{}}
	require.NoError(t, filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() && d.Name() == ".git" {
			return filepath.SkipDir
		}
		p, _ = filepath.Rel(root, p)
		r.paths[p], r.paths[d.Name()] = true, true
		if strings.HasSuffix(p, ".go") {
			f, err := parser.ParseFile(token.NewFileSet(), root+p, nil, parser.SkipObjectResolution)
			require.NoError(t, err)
			r.declared(f, filepath.Base(filepath.Dir(p)))
			if !strings.HasSuffix(p, "test.go") && !strings.HasSuffix(filepath.Dir(p), "test") {
				r.packages[filepath.Dir(p)] = true
			}
		}
		return nil
	}))
	return r
}

// declared takes in the names of a file, fields and methods behind their types too.
func (r *repository) declared(f *ast.File, folder string) {
	add := func(of string, name *ast.Ident) {
		r.names[name.Name], r.names[folder+"."+name.Name], r.names[of+"."+name.Name] = true, true, true
	}
	of := ""
	ast.Inspect(f, func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.FuncDecl:
			of = ""
			if x.Recv != nil {
				ast.Inspect(x.Recv.List[0].Type, func(n ast.Node) bool {
					if id, ok := n.(*ast.Ident); ok && of == "" {
						of = id.Name
					}
					return true
				})
			}
			add(of, x.Name)
			return false
		case *ast.TypeSpec:
			of = x.Name.Name
			add("", x.Name)
		case *ast.ValueSpec:
			for _, id := range x.Names {
				add("", id)
			}
		case *ast.Field:
			for _, id := range x.Names {
				add(of, id)
			}
		}
		return true
	})
}

var (
	isPath = regexp.MustCompile(`^(source|silencer|path|charts|cmd|testdata)/[\w./*-]*\w$|^[\w-]+\.(go|csv|want|js|yaml)$`)
	isName = regexp.MustCompile(`^\w+(\.\w+)+$|^[a-z]*[A-Z]\w*[a-z]\w*$`)
)

// found tells whether what stands in backquotes exists; what is neither a path nor a name is taken as it is.
func (r *repository) found(quoted string) bool {
	if isPath.MatchString(quoted) {
		all, _ := filepath.Glob(root + quoted)
		return len(all) > 0 || r.paths[quoted]
	}
	if strings.HasPrefix(quoted, "Benchmark") {
		quoted, _, _ = strings.Cut(quoted, "/")
	}
	if !isName.MatchString(quoted) {
		return true
	}
	parts := strings.Split(quoted, ".")
	return r.names[strings.Join(parts[max(0, len(parts)-2):], ".")]
}

// Every file, folder and name that the guide for developers puts in backquotes exists, and every package stands on its map.
func TestTheGuideSpeaksOfWhatIsThere(t *testing.T) {
	text, err := os.ReadFile(root + "DEVELOPERS.md")
	require.NoError(t, err)
	r, checked := readRepository(t), 0
	for _, m := range regexp.MustCompile("`([^`\n]+)`").FindAllStringSubmatch(string(text), -1) {
		if isPath.MatchString(m[1]) || isName.MatchString(m[1]) {
			checked++
		}
		assert.True(t, r.found(m[1]), "%s is nowhere", m[1])
	}
	assert.Greater(t, checked, 300)
	for _, gone := range []string{"path/network.go", "network.go", "silencer/nowhere", "Line.Nothing", "nothing.Known", "TestOfNothing", "BenchmarkNothing/one"} {
		assert.False(t, r.found(gone), gone)
	}
	for p := range r.packages {
		assert.Regexp(t, "(?m)^\\| .*`"+p+"`.* \\|", string(text), "%s is not on the map", p)
	}
}
