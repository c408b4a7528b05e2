// Package turns says which of many like cases one run of a test takes: some by the day, or all of them with HUSHWAKE_ALL=1 in the
// environment.
package turns

import (
	"flag"
	"iter"
	"os"
	"strconv"
	"sync"
	"time"
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

// Of are those of the cases 0 to n-1 that this run takes: every share-th, from another one on each day and with each run that
// `go test -count` asks for, so that share days or runs take all. A test asks once; one that fails tells its turn, which
// HUSHWAKE_TURN takes again.
func Of(t test, n, share int) iter.Seq[int] {
	lock.Lock()
	turn := today() + rounds[t.Name()]
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

// today is the turn that a run begins with: HUSHWAKE_TURN, or the number of the day.
func today() int {
	const day = 24 * 60 * 60
	asked := os.Getenv("HUSHWAKE_TURN")
	if asked == "" {
		return int(time.Now().Unix() / day)
	}
	turn, err := strconv.ParseUint(asked, 10, 31)
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
