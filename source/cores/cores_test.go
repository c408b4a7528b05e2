package cores

import (
	"runtime"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every place is called once on any number of processors; blocks meet without gap or overlap.
func TestEachPlaceOnce(t *testing.T) {
	for _, procs := range []int{1, 2, 7} {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(procs))
		for _, n := range []int{0, 1, 2, 63, 64, 65, 1000} {
			calls := make([]int, n)
			Each(n, func(i int) { calls[i]++ })
			var blocks atomic.Int64
			Blocks(n, 64, func(from, to int) {
				blocks.Add(1)
				assert.Zero(t, from%64)
				for i := from; i < to; i++ {
					calls[i]++
				}
			})
			assert.EqualValues(t, (n+63)/64, blocks.Load())
			for i, c := range calls {
				assert.Equal(t, 2, c, "place %d of %d", i, n)
			}
		}
	}
}

// A slow place doesn't hold up the others: it is one processor's alone.
func TestASlowPlaceWaitsForNobody(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(2))
	var done atomic.Int64
	others := make(chan struct{})
	Each(10, func(i int) {
		if i == 0 {
			<-others
			return
		}
		if done.Add(1) == 9 {
			close(others)
		}
	})
	assert.EqualValues(t, 9, done.Load())
}
