// Package reporttest knows boats by few draws for tests of what is reported.
package reporttest

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/boatfiletest"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
)

// Imperial are the units of inches and gallons.
var Imperial = form.Units{System: quantity.Imperial}

// Known is what is known of a boat by n draws.
func Known(t testing.TB, b *path.Boat, n int) *readings.Known {
	t.Helper()
	k, err := readings.Know(b, readings.Options{Options: draws.Options{N: n}})
	require.NoError(t, err)
	return k
}

// Once keeps by name what demos come to, for tests that only read it.
type Once[T any] map[string]T

// Of works a demo out by 100 draws, the first time it is asked for.
func (o Once[T]) Of(t testing.TB, name string, work func(*path.Boat, *readings.Known) (T, error)) T {
	t.Helper()
	if w, ok := o[name]; ok {
		return w
	}
	b := boatfiletest.Demo(t, name)
	w, err := work(b, Known(t, b, 100))
	require.NoError(t, err)
	o[name] = w
	return w
}
