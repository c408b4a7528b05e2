// Package turns says which of many like cases one run of a test takes: the first ones, those of
// HUSHWAKE_TURN, or all of them with HUSHWAKE_ALL=1 in the environment.
package turns

import (
	"flag"
	"iter"
	"os"
	"strconv"
	"sync"
)

// test is what is asked of a testing.TB.
type test interface {
	Name() string
	Failed() bool
	Logf(format string, args ...any)
	Cleanup(func())
}

var (
	lock   sync.Mutex
	rounds = map[string]int{}
)

// Of are those of the cases 0 to n-1 that this run takes: every share-th, from the one of HUSHWAKE_TURN on (without it the first)
// and from another one with each run that `go test -count` asks for, so that share runs take all. A test asks once; one that
// fails tells its turn.
func Of(t test, n, share int) iter.Seq[int] {
	lock.Lock()
	turn := asked() + rounds[t.Name()]
	rounds[t.Name()]++
	lock.Unlock()
	first := turn % share
	if All() {
		first, share = 0, 1
	}
	if share > 1 {
		t.Cleanup(func() {
			if t.Failed() {
				t.Logf("the same cases again: HUSHWAKE_TURN=%d", turn)
			}
		})
	}
	return func(yield func(int) bool) {
		for i := first; i < n; i += share {
			if !yield(i) {
				return
			}
		}
	}
}

// asked is the turn that a run begins with.
func asked() int {
	text := os.Getenv("HUSHWAKE_TURN")
	if text == "" {
		return 0
	}
	turn, err := strconv.ParseUint(text, 10, 31)
	if err != nil {
		panic("HUSHWAKE_TURN: " + err.Error())
	}
	return int(turn)
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
