package edit

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"hushwake/testdata"
)

// demos are all boat files that read as YAML, by name: starters, demos and measured boats as they are, then the broken ones.
func demos(t testing.TB, broken bool) map[string][]byte {
	all := map[string][]byte{}
	require.NoError(t, fs.WalkDir(testdata.Files, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(name, ".yaml") || strings.HasPrefix(name, "broken") != broken {
			return err
		}
		text, err := testdata.Files.ReadFile(name)
		all[name] = text
		return err
	}))
	return all
}

// each visits every value of a text with its place.
func each(d *doc, visit func(at string, n, up *node)) {
	var walk func(string, *node, *node)
	walk = func(at string, n, up *node) {
		visit(at, n, up)
		for i, k := range n.kids {
			if n.kind == yaml.MappingNode {
				walk(at+"/"+token(n.keys[i].value), k, n)
			} else {
				walk(fmt.Sprintf("%s/%d", at, i), k, n)
			}
		}
	}
	if d.root != nil {
		walk("", d.root, nil)
	}
}

// touched counts the lines that a change took out and put in, and requires that they lie within some lines of the old text.
func touched(t require.TestingT, was, is []byte, first, last int, what string) (out, in int) {
	for _, l := range Diff(was, is) {
		switch l.Change {
		case Out:
			out++
			require.True(t, first <= l.Was && l.Was <= last, "%s: line %d of lines %d to %d", what, l.Was, first, last)
		case In:
			in++
		}
	}
	return out, in
}

// linesOf are the first and last line of a node.
func (d *doc) linesOf(n *node) (int, int) {
	first, _ := d.breaks.position(d.text, n.start)
	last, _ := d.breaks.position(d.text, n.end)
	return first, last
}

func TestEveryValueOfEveryDemo(t *testing.T) {
	scalars := 0
	for name, text := range demos(t, false) {
		d, err := parse(text)
		require.NoError(t, err, name)
		each(d, func(at string, n, up *node) {
			if up == nil {
				return
			}
			what := name + " " + at
			value, ok := Get(text, at)
			require.True(t, ok, what)
			line, column, ok := Position(text, at)
			require.True(t, ok)
			require.True(t, strings.HasPrefix(Pointer(text, line, column), at), what)
			same, err := Set(text, at, value)
			if n.kind == yaml.ScalarNode {
				scalars++
				require.NoError(t, err, what)
				require.Equal(t, string(text), string(same), what)
			}
			first, last := d.linesOf(n)
			is, err := Unknown(text, at)
			require.NoError(t, err, what)
			_, in := touched(t, text, is, min(first, line-1), last, what)
			require.LessOrEqual(t, in, 1, what)
			got, _ := Get(is, at)
			require.Equal(t, "unknown", got, what)
			is, err = Remove(text, at)
			require.NoError(t, err, what)
			if up.lines() && len(up.kids) > 1 && up.kids[0] == n {
				last, _ = d.breaks.position(d.text, up.kids[1].end) // behind a dash its next key takes its stead
			}
			if len(up.kids) == 1 {
				first, last = d.linesOf(up) // its parent becomes {}
			}
			_, in = touched(t, text, is, first-1, last, what)
			require.LessOrEqual(t, in, 2, what)
			if n.kind == yaml.SequenceNode {
				is, err = Add(text, at, "{new: [1, 2]}")
				require.NoError(t, err, what)
				out, in := touched(t, text, is, first-1, last, what)
				require.True(t, in == 1 && out <= 1, what) // a line of its own, or within one
			}
		})
	}
	require.Greater(t, scalars, 4000)
}
