package edit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// change is one call, so that tables can hold them.
type change func(text []byte) ([]byte, error)

func set(at, to string) change {
	return func(text []byte) ([]byte, error) { return Set(text, at, to) }
}

func add(at, item string) change {
	return func(text []byte) ([]byte, error) { return Add(text, at, item) }
}

func insert(at, item string) change {
	return func(text []byte) ([]byte, error) { return Insert(text, at, item) }
}

func remove(at string) change {
	return func(text []byte) ([]byte, error) { return Remove(text, at) }
}

// oddTexts are texts as people write them, with what a change makes of them to the byte.
var oddTexts = []struct {
	what, was string
	do        change
	is        string
}{
	{"a comment at the line end stays", "a: 5 in   # by the tape\nb: 1\n", set("/a", "6 in"), "a: 6 in   # by the tape\nb: 1\n"},
	{"a # within a name is no comment", "a: no#1 # two\n", set("/a", "x"), "a: x # two\n"},
	{"nothing after the colon", "a:\nb:   # later\n", set("/b", "1"), "a:\nb: 1   # later\n"},
	{"nothing after the last colon", "a:", set("/a", "1"), "a: 1"},
	{"nothing in braces", "m: {a, b: , c:}\n", set("/m/b", "1"), "m: {a, b: 1 , c:}\n"},
	{"a key alone in braces", "m: {a, b: 2}\n", set("/m/a", "1"), "m: {a: 1, b: 2}\n"},
	{"behind nothing in braces", "m: {b:}\n", set("/m/c", "1"), "m: {b: , c: 1}\n"},
	{"an empty entry of a list", "l:\n  -\n  - x\n", set("/l/0", "y"), "l:\n  - y\n  - x\n"},
	{"double quotes with escapes", `a: "x \" # , }" # c` + "\n", set("/a", "y"), "a: y # c\n"},
	{"single quotes doubled", "a: {b: 'it''s, }', c: 2}\n", set("/a/b", "y"), "a: {b: y, c: 2}\n"},
	{"comma in braces gets quotes", "a: {b: 1}\n", set("/a/b", "x, y"), "a: {b: \"x, y\"}\n"},
	{"comma outside needs none", "a: 1\n", set("/a", "x, y"), "a: x, y\n"},
	{"text behind a bar", "a: |\n  one\n\n  two\n\nb: 1\n", set("/a", "x"), "a: x\n\nb: 1\n"},
	{"text behind a bar is written", "a: 1\nb: 2\n", set("/a", "|\n  one\n  two"), "a: \"one\\ntwo\"\nb: 2\n"},
	{"text over two lines", "a: one\n  two # c\nb: 1\n", set("/a", "x"), "a: x # c\nb: 1\n"},
	{"quotes over two lines", "a: \"one\n  two\"\nb: 1\n", set("/a", "x"), "a: x\nb: 1\n"},
	{"carriage returns", "a: 1\r\nb:\r\n  c: 2\r\n", set("/b/d", "3"), "a: 1\r\nb:\r\n  c: 2\r\n  d: 3\r\n"},
	{"byte order mark", "\ufeffa: 1\nb: 2\n", set("/a", "3"), "\ufeffa: 3\nb: 2\n"},
	{"letters of two bytes", "ä: {ö: 1 µm, ü: 2}\n", set("/ä/ü", "3"), "ä: {ö: 1 µm, ü: 3}\n"},
	{"other line ends", "a: 1\u0085b: 2\u2028c: 3\n", set("/c", "4"), "a: 1\u0085b: 2\u2028c: 4\n"},
	{"no line end at the end", "a: 1", set("/b", "2"), "a: 1\nb: 2"},
	{"an empty text", "", set("/a/b/c/d", "2"), "a:\n  b: {c: {d: 2}}\n"},
	{"only a comment", "# boat", set("/a", "2"), "# boat\na: 2\n"},
	{"a list from nothing", "", add("/layouts", "{name: x}"), "layouts:\n  - {name: x}\n"},
	{"missing parents in braces", "a: {b: 1}\n", set("/a/c/d", "2"), "a: {b: 1, c: {d: 2}}\n"},
	{"missing parents in lines", "a:\n  b: 1 # c\n  # foot\nz: 1\n", set("/a/c/d", "2"), "a:\n  b: 1 # c\n  c: {d: 2}\n  # foot\nz: 1\n"},
	{"a list among missing parents", "e:\n  main: {a: 1}\n", set("/e/main/line/0/pipe/bore", "2 in"), "e:\n  main: {a: 1, line: [{pipe: {bore: 2 in}}]}\n"},
	{"unknown gives way", "e:\n  main: {running: unknown, a: 1}\n", set("/e/main/running/speed", "1500 rpm"), "e:\n  main: {running: {speed: 1500 rpm}, a: 1}\n"},
	{"unknown gives way in lines", "e: unknown # yet\nb: 1\n", set("/e/main/a", "1"), "e: # yet\n  main: {a: 1}\nb: 1\n"},
	{"a pair within brackets", "l: [a: 1, b: {c: 2}]\n", set("/l/0/d", "3"), "l: [{a: 1, d: 3}, b: {c: 2}]\n"},
	{"block for a figure", "l:\n  - a: 1\n    b: 2 # c\n  - x\n", set("/l/0", "7"), "l:\n  - 7 # c\n  - x\n"},
	{"figure for a block under its key", "a: # what\n  b: 1\n  c: 2\nd: 3\n", set("/a", "7"), "a: 7 # what\nd: 3\n"},
	{"block under a key for a figure", "a: 7 # what\nd: 3\n", set("/a", "b: 1\nc:\n  - 2"), "a: # what\n  b: 1\n  c:\n    - 2\nd: 3\n"},
	{"block for a block", "m:\n    a:\n        b: 1\n    d: 3\n", set("/m/a", "x: 1\ny: 2"), "m:\n    a:\n        x: 1\n        y: 2\n    d: 3\n"},
	{"block in braces", "m: {a: 1}\n", set("/m/b", "x: 1\ny: [1, 2]"), "m: {a: 1, b: {x: 1, y: [1, 2]}}\n"},
	{"keys that need quotes", "m: {a: 1}\n", set("/m/x: y~1z", "1"), "m: {a: 1, \"x: y/z\": 1}\n"},
	{"keys with blanks", "m:\n  deep blue: {a: 1}\n", set("/m/deep blue/a", "2"), "m:\n  deep blue: {a: 2}\n"},
	{"the first of two equal keys", "a: 1\na: 2\n", set("/a", "3"), "a: 3\na: 2\n"},
	{"a mark that nobody names", "a: &x 5\nb: 1\n", set("/a", "6"), "a: 6\nb: 1\n"},
	{"a name for a value is written out", "a: &x 5\nb: *x\n", set("/b", "6"), "a: &x 5\nb: 6\n"},
	{"a mark within a list that grows", "l: [&x {a: 1}, *x]\n", add("/l", "2"), "l: [&x {a: 1}, *x, 2]\n"},
	{"a mark beside", "a: &x 5\nb: *x\nc: 1\n", set("/c", "6"), "a: &x 5\nb: *x\nc: 6\n"},
	{"deeper lines behind a bar", "a: |\n  one\n    deep\n  two\n # note\nb: 1\n", set("/a", "x"), "a: x\n # note\nb: 1\n"},
	{"a tag", "a: !!str 5\nb: !!map\n  c: 1\n", set("/b", "6"), "a: !!str 5\nb: 6 \n"},
	{"a comma at the end", "l: [1, 2,]\nm: {a: 1,}\n", add("/l", "3"), "l: [1, 2, 3,]\nm: {a: 1,}\n"},
	{"an empty list", "l: []\n", add("/l", "a: 1"), "l: [{a: 1}]\n"},
	{"an empty list with a comment", "l: [ # none\n  ]\n", add("/l", "1"), "l: [1 # none\n  ]\n"},
	{"an unknown list", "a:\n  l: unknown\n", add("/a/l", "1"), "a:\n  l: [1]\n"},
	{"a list in lines", "l:\n- 1 # one\n# foot\nb: 1\n", add("/l", "x: 1\ny: 2"), "l:\n- 1 # one\n- x: 1\n  y: 2\n# foot\nb: 1\n"},
	{"a list of lists", "l:\n  - - 1\n    - 2\n", add("/l/0", "3"), "l:\n  - - 1\n    - 2\n    - 3\n"},
	{"before the first in lines", "l:\n  # one\n  - 1\n", insert("/l/0", "0"), "l:\n  # one\n  - 0\n  - 1\n"},
	{"before an item of a list of lists", "l:\n  - - 1\n", insert("/l/0/0", "a: 1\nb: 2"), "l:\n  - - a: 1\n      b: 2\n    - 1\n"},
	{"before one in brackets", "l: [1, a: 2]\n", insert("/l/1", "b: 1"), "l: [1, {b: 1}, a: 2]\n"},
	{"out of braces, first", "m: {a: 1, b: 2} # c\n", remove("/m/a"), "m: {b: 2} # c\n"},
	{"out of braces, last", "m: {a: 1, b: 2} # c\n", remove("/m/b"), "m: {a: 1} # c\n"},
	{"out of braces, only", "m: { a: 1, } # c\n", remove("/m/a"), "m: {  } # c\n"},
	{"out of brackets by lines", "l: [\n  1, # one\n  2, # two\n  3] # three\n", remove("/l/1"), "l: [\n  1, # one\n  3] # three\n"},
	{"last out of brackets by lines", "l: [\n  1, # one\n  2] # two\n", remove("/l/1"), "l: [\n  1 # one\n  ] # two\n"},
	{"out of brackets before a line end", "l: [1, 2, # two\n  3]\n", remove("/l/1"), "l: [1, # two\n  3]\n"},
	{"first out of brackets before a line end", "l: [1, # one\n  3]\n", remove("/l/0"), "l: [ # one\n  3]\n"},
	{"a pair's only key", "l: [a: 1, b: 2]\n", remove("/l/0/a"), "l: [{}, b: 2]\n"},
	{"line out of a mapping", "a: 1\nb:\n  c: 1 # c\n  # foot\nd: 1\n", remove("/b"), "a: 1\n  # foot\nd: 1\n"},
	{"its comments would join the text behind a bar", "a: |\n   one\nb:\n  - 1 # c\n    # between\n \n  # low\n# foot\n", remove("/b"), "a: |\n   one\n# foot\n"},
	{"comments and blanks under the last entry", "a: |\n one\nb:\n  - 1\n\n  # one\n\n    # two", remove("/b"), "a: |\n one\n"},
	{"a comment at its own column stays", "a:\n  b: |\n    one\n  c: 1\n      # in\n  # foot\n", remove("/a/c"), "a:\n  b: |\n    one\n  # foot\n"},
	{"last line without an end", "a: 1\nb: 2", remove("/b"), "a: 1\n"},
	{"only key under a key", "a: # what\n  b: 1\nc: 2\n", remove("/a/b"), "a: {} # what\nc: 2\n"},
	{"only item of a list", "a:\n- 1\nc: 2\n", remove("/a/0"), "a: []\nc: 2\n"},
	{"key behind a dash", "l:\n  - a: 1 # c\n    b: 2\n", remove("/l/0/a"), "l:\n  - b: 2\n"},
	{"the only key of a file", "a: 1\n", remove("/a"), "{}\n"},
	{"a document with marks", "---\na: 1\n...\n", set("/b", "2"), "---\na: 1\nb: 2\n...\n"},
	{"the whole file", "a: 1\n", set("", "{b: 2}"), "{b: 2}\n"},
}

func TestOddTexts(t *testing.T) {
	for _, c := range oddTexts {
		is, err := c.do([]byte(c.was))
		require.NoError(t, err, c.what)
		require.Equal(t, c.is, string(is), c.what)
	}
}

// refused are changes that can't be made, with what is said of them.
var refused = []struct {
	what, was string
	do        change
	says      string
}{
	{"no YAML", "a: [1\n", set("/a", "1"), "not valid YAML"},
	{"no UTF-8", "a: \xff\n", set("/a", "1"), "not UTF-8"},
	{"no place", "a: 1\n", remove("/b"), "no place /b"},
	{"no place within a figure", "a: 1\n", set("/a/b", "2"), "holds nothing"},
	{"index out of range", "l: [1]\n", set("/l/2", "2"), "has 1 entries"},
	{"index with a sign", "l: [1, 2]\n", set("/l/+1", "2"), "has 2 entries"},
	{"index with a zero before", "l: [1, 2]\n", remove("/l/01"), "no place"},
	{"insert behind the end", "l: [1]\n", insert("/l/1", "2"), "no place"},
	{"insert into a mapping", "l: {a: 1}\n", insert("/l/a", "2"), "no item of a list"},
	{"add to a mapping", "l: {a: 1}\n", add("/l", "2"), "no list"},
	{"no slash", "a: 1\n", set("a", "2"), "begin with /"},
	{"a place that is no text", "a: 1\n", set("/\xff", "2"), "not UTF-8"},
	{"a tilde alone", "a: 1\n", set("/a~2", "2"), "~0"},
	{"no value", "a: 1\n", set("/a", ""), "no value"},
	{"only a comment", "a: 1\n", set("/a", "# x"), "no value"},
	{"two values", "a: 1\n", set("/a", "[1] 2"), "not one YAML value"},
	{"two documents", "a: 1\n", set("/a", "1\n---\n2\n"), "more than one"},
	{"broken value", "a: 1\n", set("/a", "{b: 1"), "not one YAML value"},
	{"closing more than was opened", "a: {b: 1}\n", set("/a/b", "1}, c: {d: 1"), "not one YAML value"},
	{"a mark in the value", "a: 1\n", set("/a", "&x 1"), "& or *"},
	{"below a name of a value", "a: &x {b: 1}\nc: *x\n", set("/c/b", "2"), "&x"},
	{"a value that others name", "a: &x 5\nb: *x\n", set("/a", "6"), "write it out"},
	{"one of two values of a name", "a: &x 5\nb: &x 6\nc: *x\n", set("/b", "7"), "by *x"},
	{"within a value that others name", "a: &x {b: 1}\nc: *x\n", set("/a/d", "2"), "by *x"},
	{"deep within a value that others name", "a: &x {b: {e: 1}}\nc: *x\n", set("/a/b/e", "2"), "by *x"},
	{"blank lines that belong to a text", "a: |+\n  one\n\n", set("/c", "2"), "can't be changed"},
	{"within a list that others name", "a: &x [1]\nc: *x\n", add("/a", "2"), "by *x"},
	{"before an item of one", "a: &x [1]\nc: *x\n", insert("/a/0", "2"), "by *x"},
	{"a value that others name is taken out", "a: {b: &x 5}\nb: *x\n", remove("/a"), "write it out"},
	{"the whole file out", "a: 1\n", remove(""), "whole file"},
	{"too long", string(make([]byte, most+1)), set("/a", "1"), "at most"},
}

func TestWhatCantBeChanged(t *testing.T) {
	for _, c := range refused {
		_, err := c.do([]byte(c.was))
		require.ErrorContains(t, err, c.says, c.what)
	}
	text := []byte("layouts: [{name: a}, {name: b}]\n")
	_, err := CopyLayout(text, "c", "d")
	require.ErrorContains(t, err, `no layout "c"`)
	_, err = CopyLayout(text, "a", "b")
	require.ErrorContains(t, err, "already")
	_, err = CopyLayout([]byte("a: 1\n"), "a", "b")
	require.ErrorContains(t, err, "no place /layouts")
}
