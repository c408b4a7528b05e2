package edit

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"
)

// writer writes random YAML in the ways in which people write it.
type writer struct{ *rapid.T }

func (w writer) one(of ...string) string { return rapid.SampledFrom(of).Draw(w.T, "text") }

func (w writer) comment() string { return w.one("", "", "", "   # why", " # a: {b, \"c\" ]") }

func (w writer) scalar(flow bool) string {
	all := []string{"5 in", "102 mm", `"a, b: c # d"`, "'it''s'", "no#1", "unknown", "~", "é µ", `"\u00e9 \" ]"`, "-3", "'# x'", "a b  c", "?x", "x:y"}
	if !flow {
		all = append(all, "a, b", "a] }", "")
	}
	return w.one(all...)
}

func (w writer) keys() []string {
	return rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"a", "b", "deep blue", "x/y", "~", "é", "1st", "name: x"}), 1, 4, rapid.ID).Draw(w.T, "keys")
}

// flow writes a value on one line or several, in brackets and braces.
func (w writer) flow(depth int) string {
	gap := func() string { return w.one("", " ", "", " # gap, }\n            ", "\n          ") }
	kind := rapid.IntRange(0, 4).Draw(w.T, "kind")
	if depth == 0 || kind < 2 {
		return w.scalar(true)
	}
	var parts []string
	if kind == 2 {
		for range rapid.IntRange(0, 3).Draw(w.T, "items") {
			parts = append(parts, w.one("", "", "k: ")+w.flow(depth-1))
		}
		return "[" + strings.Join(parts, w.one(",", ", ", ",\n          ", ", # next\n            ")) + "]"
	}
	for _, k := range w.keys() {
		parts = append(parts, Quote(k)+": "+w.flow(depth-1)+gap())
	}
	return "{" + strings.Join(parts, ", ") + w.one("", " ", ",") + "}"
}

// block writes a value behind a key or dash at an indentation.
func (w writer) block(depth, indent int, dash bool) string {
	pad := strings.Repeat(" ", indent)
	kind := rapid.IntRange(0, 5).Draw(w.T, "kind")
	switch {
	case depth == 0 || kind == 0:
		return " " + w.scalar(false) + w.comment() + "\n"
	case kind == 1:
		return " " + w.flow(depth) + w.comment() + "\n"
	case kind == 2:
		return w.one(" |\n", " >-\n", " |  # bar\n") + pad + " one: x\n\n" + pad + " two # no comment\n"
	case kind == 3:
		return " one\n" + pad + " two " + w.comment() + "\n"
	}
	var b strings.Builder
	if !dash || rapid.Bool().Draw(w.T, "below") {
		b.WriteString(w.comment() + "\n" + w.one("", pad+"# above\n"))
	} else {
		b.WriteString(" ")
		pad = "" // behind the dash
	}
	for _, k := range w.keys() {
		if kind == 4 {
			b.WriteString(pad + Quote(k) + ":" + w.block(depth-1, indent+2, false))
		} else {
			b.WriteString(pad + "-" + w.block(depth-1, indent+2, true))
		}
		pad = strings.Repeat(" ", indent)
		b.WriteString(w.one("", "", "\n", pad+"# between\n"))
	}
	return b.String()
}

func (w writer) text() string {
	var b strings.Builder
	for _, k := range w.keys() {
		b.WriteString(Quote(k) + ":" + w.block(3, 2, false))
	}
	text := b.String()
	if rapid.Bool().Draw(w.T, "no last line end") && !strings.HasSuffix(text, "comment\n") { // which belongs to a text behind a bar
		text = strings.TrimSuffix(text, "\n")
	}
	if rapid.Bool().Draw(w.T, "carriage returns") {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	return w.one("", "", "\ufeff") + text
}

func meaning(t require.TestingT, text []byte) (v any) {
	require.NoError(t, yaml.Unmarshal([]byte(strings.TrimPrefix(string(text), "\ufeff")), &v), "%s", text)
	return v
}

// without is a value less the entry at a place; changed the one with another value there. They know maps and lists, no text.
func changed(v any, place []string, to func(any) any) any {
	if len(place) == 0 {
		return to(v)
	}
	switch v := v.(type) {
	case map[string]any:
		out := maps.Clone(v)
		out[place[0]] = changed(v[place[0]], place[1:], to)
		return out
	case []any:
		out := slices.Clone(v)
		i, _ := strconv.Atoi(place[0])
		out[i] = changed(v[i], place[1:], to)
		return out
	}
	panic("no place")
}

// taken is a list or mapping without one entry.
func taken(key string) func(any) any {
	return func(v any) any {
		if m, ok := v.(map[string]any); ok {
			m = maps.Clone(m)
			delete(m, key)
			return m
		}
		i, _ := strconv.Atoi(key)
		return slices.Delete(slices.Clone(v.([]any)), i, i+1)
	}
}

// Random changes to random texts mean what they would mean for plain maps and lists, and touch only the lines that they must.
func TestRandomChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := writer{t}
		text := []byte(w.text())
		d, err := parse(text)
		require.NoError(t, err, "%s", text)
		var places []string
		kinds := map[string]*node{}
		each(d, func(at string, n, up *node) {
			if up != nil {
				places, kinds[at] = append(places, at), n
			}
		})
		at := rapid.SampledFrom(places).Draw(t, "at")
		place, _ := tokens(at)
		value := rapid.SampledFrom([]string{"unknown", "5 in", `"a, b"`, "a, b", "{x: 1, y: [2]}", "x: 1\ny:\n  - 2\n  - z: 3\n", "[]", "- 1\n- 2"}).Draw(t, "value")
		v := meaning(t, []byte(value))
		was := meaning(t, text)
		first, last := d.linesOf(kinds[at])
		var is []byte
		var want any
		switch n := kinds[at]; {
		case rapid.Bool().Draw(t, "set"):
			is, err = Set(text, at, value)
			want = changed(was, place, func(any) any { return v })
		case n.kind == yaml.SequenceNode && rapid.Bool().Draw(t, "add"):
			is, err = Add(text, at, value)
			want = changed(was, place, func(l any) any { return append(slices.Clone(l.([]any)), v) })
		case n.kind == yaml.MappingNode && rapid.Bool().Draw(t, "key"):
			is, err = Set(text, at+"/new: key/then", value)
			want = changed(was, append(place, "new: key"), func(any) any { return map[string]any{"then": v} })
		default:
			is, err = Remove(text, at)
			want = changed(was, place[:len(place)-1], taken(place[len(place)-1]))
			first, last = 1, len(rows(d.text))
		}
		require.NoError(t, err, "%s at %s", text, at)
		require.Equal(t, want, meaning(t, is), "%s at %s:\n%s", text, at, is)
		touched(t, text, is, first-2, last, fmt.Sprintf("%s at %s:\n%s", text, at, is))
	})
}

func TestQuote(t *testing.T) {
	for text, quoted := range map[string]string{"as found": "as found", "12": "12", "a: b": `"a: b"`, "a, b": `"a, b"`, "": `""`, "?": `"?"`, "null": `"null"`,
		"no #1": `"no #1"`, "no#1": "no#1", "é": "é", "a\nb": `"a\nb"`, "- x": `"- x"`, "*x": `"*x"`, "%x": `"%x"`, `a"b`: `"a\"b"`, "a\u2028": `"a\U00002028"`, " a": `" a"`} {
		require.Equal(t, quoted, Quote(text))
		require.Equal(t, text, Plain(Quote(text)))
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		quoted := Quote(text)
		require.Equal(t, text, Plain(quoted))
		for _, in := range []string{"a: %s # c\n", "a: {b: %s, c: 1}\n", "- [x, %s]\n", "%s: 1\n"} {
			_, err := parseFresh([]byte(fmt.Sprintf(in, quoted)))
			require.NoError(t, err)
		}
		if is, err := Set([]byte("m: {}\n"), "/m/"+token(text), quoted); text != "" {
			require.NoError(t, err)
			got, ok := Get(is, "/m/"+token(text))
			require.True(t, ok)
			require.Equal(t, quoted, got)
		}
	})
}

// FuzzChanges looks for texts that make a change panic, or mean another thing than it says.
func FuzzChanges(f *testing.F) {
	for _, text := range demos(f) {
		f.Add(text, "/layouts/0/name", "x", byte(0))
	}
	f.Add([]byte("a: &x !t [b: 1, ? c : d]\nb: *x\n? - 1\n: >2\n   x\n"), "/a/0/b", "{c: |\n 1}", byte(1))
	f.Fuzz(func(t *testing.T, text []byte, at, to string, op byte) {
		if len(text) > 1<<12 || len(to) > 1<<10 {
			return
		}
		var is []byte
		var err error
		switch op % 5 {
		case 0:
			is, err = Set(text, at, to)
		case 1:
			is, err = Add(text, at, to)
		case 2:
			is, err = Insert(text, at, to)
		case 3:
			is, err = Remove(text, at)
		case 4:
			is, err = CopyLayout(text, at, to)
		}
		Pointer(text, int(op), len(to))
		Diff(text, is)
		if err != nil || op%5 != 0 {
			return
		}
		d, s, rest, err := open(is, at)
		require.NoError(t, err)
		v, err := valueOf(to)
		require.NoError(t, err)
		if !strings.Contains(at+"/", "/-/") {
			require.Empty(t, rest)
			require.True(t, same(v, s.node), "%s", d.text)
		}
	})
}
