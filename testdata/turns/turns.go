// Package turns says which of many like cases one run of a test takes: some in turn, or all of them with HUSHWAKE_ALL=1 in the
// environment.
package turns

import (
	"flag"
	"iter"
	"os"
	"sync"
)

// test is what is asked of a testing.TB.
type test interface{ Name() string }

var (
	lock   sync.Mutex
	rounds = map[string]int{}
)

// Of are those of the cases 0 to n-1 that this run takes: every share-th, from the next one on with each run that
// `go test -count` asks for, so that a count of share takes all. A test asks once.
func Of(t test, n, share int) iter.Seq[int] {
	lock.Lock()
	first := rounds[t.Name()] % share
	rounds[t.Name()]++
	lock.Unlock()
	if All() {
		first, share = 0, 1
	}
	return func(yield func(int) bool) {
		for i := first; i < n; i += share {
			if !yield(i) {
				return
			}
		}
	}
}

// All tells whether every case is wanted.
func All() bool { return os.Getenv("HUSHWAKE_ALL") != "" }

// Whole leaves a test to the runs that want every case; kept are the tests that every run takes of the same seam.
func Whole(t interface {
	Helper()
	Skipf(format string, args ...any)
}, kept string) {
	if t.Helper(); !All() {
		t.Skipf("with HUSHWAKE_ALL=1; every run takes %s", kept)
	}
}

// Checks lets the properties of a package be tried so many times unless all is wanted; -rapid.checks asks for more. Said of a
// package once, as it starts.
func Checks(number string) bool {
	if All() {
		return false
	}
	if err := flag.Set("rapid.checks", number); err != nil {
		panic(err)
	}
	return true
}
