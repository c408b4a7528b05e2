// Package publishedtest holds figures against published ones in tests.
package publishedtest

import "math"

// T is a test, of testing or of rapid.
type T interface {
	Helper()
	Errorf(string, ...any)
}

// Near fails unless got lies within the tolerance of want.
func Near(t T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g within %.3g", what, got, want, tolerance)
	}
}
