package decode

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/quantity"
)

func opened(t *testing.T, text string) (*Reader, *Object) {
	t.Helper()
	n, problems := Parse([]byte(text))
	require.Empty(t, problems)
	r := &Reader{}
	return r, r.Object(n, "pump")
}

// A mapping gives each value in SI with its place, and notes what it fills in.
func TestObjectReadsItsKeys(t *testing.T) {
	r, o := opened(t, "bore: 2 in\nwall: 3 mm\nkind: Soft\nports: [10 mm, 20 mm]\nname: ' a  pump '\ncount: 3\nwet: yes\nprice: 90 EUR\n")
	assert.InDelta(t, 0.0508, o.MustValue("bore", Positive, quantity.Length), 1e-12)
	assert.InDelta(t, 0.003, *o.Pointer("wall", Positive, quantity.Length), 1e-12)
	assert.Equal(t, "soft", o.Word("kind", "rigid", "soft"))
	assert.Equal(t, []float64{0.01, 0.02}, r.Lengths(o.Get("ports"), "ports", 1, 3, Positive))
	assert.Equal(t, "a  pump", o.Text("name"))
	n, ok := r.Whole(o.Get("count"), "count", 1, 4)
	assert.True(t, ok)
	assert.Equal(t, 3, n)
	wet, stated := o.Flag("wet")
	assert.True(t, wet && stated)
	assert.Equal(t, 90.0, *o.Price("price"))
	assert.Equal(t, 0.5, o.OrAssume("length", quantity.Length, Positive, 0.5, "a test", 1))
	o.Done()
	assert.Empty(t, r.Problems)
	require.Len(t, r.Assumptions, 1)
	assert.Equal(t, "pump length", r.Assumptions[0].Field)
}

// Each mistake is one problem at its place, with what to write instead.
func TestProblemsHaveAPlaceAndAHint(t *testing.T) {
	for text, x := range map[string]struct {
		read         func(*Reader, *Object)
		line, column int
		says, hint   string
	}{
		"bore: -2 in":           {func(_ *Reader, o *Object) { o.Value("bore", Positive, quantity.Length) }, 1, 7, "negative", "check the sign"},
		"a: 1\nbore: 80":        {func(_ *Reader, o *Object) { o.Get("a"); o.Value("bore", Positive, quantity.Length) }, 2, 7, "unit", "write 80 mm"},
		"boree: 80 mm":          {func(_ *Reader, o *Object) { o.Value("bore", Positive, quantity.Length) }, 1, 1, `unknown key "boree"`, `did you mean "bore"?`},
		"kind: sofd":            {func(_ *Reader, o *Object) { o.Word("kind", "rigid", "soft") }, 1, 7, "not known", `did you mean "soft"?`},
		"at: [1 m, 2 m]":        {func(r *Reader, o *Object) { r.Vector(o.Get("at"), "at", AnyValue) }, 1, 5, "2 entries; 3 fit", ""},
		"count: three":          {func(r *Reader, o *Object) { r.Whole(o.Get("count"), "count", 1, 4) }, 1, 8, "whole number", "write 3"},
		"bands: [1 dB, 2 dB]":   {func(r *Reader, o *Object) { r.Bands(o.Get("bands"), "loss") }, 1, 8, "2 entries; 9 fit", ""},
		"name: {first: second}": {func(_ *Reader, o *Object) { o.Text("name") }, 1, 7, "must be a text", ""},
		"name: unknown":         {func(_ *Reader, o *Object) { o.MustText("name", "pump") }, 1, 7, "can't be unknown", "give name"},
	} {
		r, o := opened(t, text)
		x.read(r, o)
		o.Done()
		require.Len(t, r.Problems, 1, text)
		p := r.Problems[0]
		assert.Equal(t, []int{x.line, x.column}, []int{p.Line, p.Column}, text)
		assert.Contains(t, p.Message, x.says, text)
		assert.Contains(t, p.Hint, x.hint, text)
		full := Placed("boat.yaml", []byte(text), r.Problems).Error()
		assert.Contains(t, full, strings.Split(text, "\n")[x.line-1], "with its line")
	}
}

// What is no tree comes back as one problem and no node, however it tries to grow.
func TestParseRefuses(t *testing.T) {
	for text, says := range map[string]string{
		"":                              "empty",
		"a: \x00":                       "binary",
		"a: \xff":                       "not UTF-8",
		"a: 1\n---\nb: 2":               "second document",
		"a: 1\na: 2":                    "duplicate key",
		"a: !!int 1":                    "tag",
		"a: [1, 2":                      "not valid YAML",
		"a: &a [*a]":                    "nested deeper",
		strings.Repeat("x", MaxBytes+1): "may hold",
		strings.Repeat("[", 50):         "not valid YAML",
		"a: &a " + "[1,1,1,1,1,1,1,1,1,1]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b,*b]\nd: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c,*c]\ne: [*d,*d,*d,*d,*d,*d,*d,*d,*d,*d]": "multiply",
	} {
		_, problems := Parse([]byte(text))
		require.NotEmpty(t, problems, "%.40s", text)
		assert.Contains(t, problems[0].Message, says, "%.40s", text)
	}
}

// Changing a tree leaves the old one as it was, and shares what did not change.
func TestTreesAreCopied(t *testing.T) {
	n, _ := Parse([]byte("a: {b: 1, c: [x, y]}\nd: 2\n"))
	was := strings.Join(n.Texts(), " ")
	b, err := n.Place("a.b")
	require.NoError(t, err)
	other := n.With(map[*Node]string{b: "7"})
	assert.Equal(t, strings.Replace(was, "1", "7", 1), strings.Join(other.Texts(), " "))
	assert.False(t, n.Equal(other))
	assert.True(t, n.Equal(n.With(nil)))
	_, a := n.Find("a")
	_, d := n.Find("d")
	put := n.Putting(map[*Node][]*Node{d: {TextNode("9")}})
	_, kept := put.Find("a")
	assert.Same(t, a, kept)
	assert.Same(t, n, n.Putting(nil))
	assert.Equal(t, []string{"a"}, KeysOf(n.But([]string{"d"})))
	assert.Equal(t, []string{"a", "d", "e"}, KeysOf(n.Having("e", TextNode("3"))))
	assert.Equal(t, was, strings.Join(n.Texts(), " "), "the old one stands")
	_, err = n.Place("a.q")
	assert.ErrorContains(t, err, `no "q" there; there are b, c`)
	text, err := n.Encode()
	require.NoError(t, err)
	again, problems := Parse(text)
	require.Empty(t, problems)
	assert.True(t, n.Equal(again), string(text))
}
