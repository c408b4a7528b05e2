package edit

import (
	"embed"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"hushwake/testdata"
	"hushwake/testdata/turns"
)

// demos are all boat files, by name: starters, demos and measured boats.
func demos(t testing.TB) map[string][]byte {
	all := map[string][]byte{}
	for _, files := range []embed.FS{testdata.Files, testdata.Proof} {
		require.NoError(t, fs.WalkDir(files, ".", func(name string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() || !strings.HasSuffix(name, ".yaml") {
				return err
			}
			text, err := files.ReadFile(name)
			all[name] = text
			return err
		}))
	}
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

// sections cuts a text into the entries of its mapping and of its lists, so that each of its values is changed in a short text.
func sections(d *doc) (all []string) {
	for i, k := range d.root.kids {
		from := d.root.keys[i].start
		if k.kind != yaml.SequenceNode || k.flow {
			all = append(all, d.text[from:lineEnd(d.text, k.end)]+"\n")
			continue
		}
		for _, item := range k.kids {
			pad := strings.Repeat(" ", d.column(item.mark))
			all = append(all, d.text[from:d.root.keys[i].end]+":\n"+pad+d.text[item.mark:lineEnd(d.text, item.end)]+"\n")
		}
	}
	return all
}

// Each value of a section is changed; of all sections a run takes every third.
func TestEveryValueOfEveryDemo(t *testing.T) {
	scalars, section, taken := 0, -1, slices.Collect(turns.Of(t, 10_000, 3))
	all := demos(t)
	for _, name := range slices.Sorted(maps.Keys(all)) {
		text := all[name]
		whole, err := parse(text)
		require.NoError(t, err, name)
		for _, part := range sections(whole) {
			d, err := parse([]byte(part))
			require.NoError(t, err, name)
			section++
			mine := slices.Contains(taken, section)
			each(d, func(at string, n, up *node) {
				if up == nil {
					return
				}
				if n.kind == yaml.ScalarNode {
					scalars++
				}
				if mine {
					everyChange(t, d, at, n, up, name+" "+at)
				}
			})
		}
	}
	require.Greater(t, scalars, 3700)
}

// In the whole files, some of their values.
func TestValuesOfWholeDemos(t *testing.T) {
	for name, text := range demos(t) {
		d, err := parse(text)
		require.NoError(t, err, name)
		count := 0
		each(d, func(at string, n, up *node) {
			if count++; up != nil && count%97 == 0 {
				everyChange(t, d, at, n, up, name+" "+at)
			}
		})
	}
}

// everyChange makes each change to one value; no line but its own changes.
func everyChange(t *testing.T, d *doc, at string, n, up *node, what string) {
	text := []byte(d.text)
	value, ok := Get(text, at)
	require.True(t, ok, what)
	line, column := d.breaks.position(d.text, n.start)
	require.True(t, strings.HasPrefix(Pointer(text, line, column), at), what)
	if n.kind == yaml.ScalarNode {
		is, err := Set(text, at, value)
		require.NoError(t, err, what)
		require.Equal(t, d.text, string(is), what)
	}
	first, last := d.linesOf(n)
	is, err := Unknown(text, at)
	require.NoError(t, err, what)
	_, in := touched(t, text, is, first-1, last, what)
	require.LessOrEqual(t, in, 1, what)
	got, _ := Get(is, at)
	require.Equal(t, "unknown", got, what)
	if n.kind == yaml.SequenceNode {
		is, err = Add(text, at, "{new: [1, 2]}")
		require.NoError(t, err, what)
		out, in := touched(t, text, is, first-1, last, what)
		require.True(t, in == 1 && out <= 1, what) // a line of its own, or within one
	}
	removed(t, d, at, n, up, what)
}

func removed(t *testing.T, d *doc, at string, n, up *node, what string) {
	first, last := d.linesOf(n)
	if up.lines() && len(up.kids) > 1 && up.kids[0] == n {
		last, _ = d.breaks.position(d.text, up.kids[1].end) // behind a dash its next key takes its stead
	}
	if len(up.kids) == 1 {
		first, last = d.linesOf(up) // its parent becomes {}
	}
	is, err := Remove([]byte(d.text), at)
	require.NoError(t, err, what)
	_, in := touched(t, []byte(d.text), is, first-1, last, what)
	require.LessOrEqual(t, in, 2, what)
}

func TestCopyOfEveryLayout(t *testing.T) {
	for name, text := range demos(t) {
		d, s, rest, err := open(text, "/layouts")
		require.NoError(t, err, name)
		if s == nil || len(rest) > 0 {
			continue
		}
		for i, l := range s.kids {
			is, err := CopyLayout(text, l.named(), "a copy: of it")
			require.NoError(t, err, name)
			_, last := d.linesOf(s.node)
			out, _ := touched(t, text, is, last, last, name)
			require.Zero(t, out)
			got, _ := Get(is, fmt.Sprintf("/layouts/%d/name", len(s.kids)))
			require.Equal(t, `"a copy: of it"`, got)
			here, _ := Get(text, fmt.Sprintf("/layouts/%d", i))
			there, _ := Get(is, fmt.Sprintf("/layouts/%d", len(s.kids)))
			old, _ := Get(text, fmt.Sprintf("/layouts/%d/name", i))
			require.Equal(t, here, strings.Replace(there, `"a copy: of it"`, old, 1), name)
		}
	}
}
