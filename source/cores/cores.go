// Package cores spreads work over the processors, and remembers once for all what several ask for. Nothing that it calls may hang
// on their number.
package cores

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each calls f(0..n-1) on all processors, whichever is free taking the next; f must write to places of its own.
func Each(n int, f func(i int)) {
	workers := min(n, runtime.GOMAXPROCS(0))
	if workers <= 1 {
		for i := range n {
			f(i)
		}
		return
	}
	var next atomic.Int64
	var all sync.WaitGroup
	for range workers {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				f(i)
			}
		})
	}
	all.Wait()
}

// Blocks calls f for blocks of 0..n, from and up to, each of a length but the last, on all processors.
func Blocks(n, length int, f func(from, to int)) {
	Each((n+length-1)/length, func(k int) { f(k*length, min((k+1)*length, n)) })
}
