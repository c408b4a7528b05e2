package cores

import (
	"errors"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What several ask for at once is worked out once, an error too; no more are kept than the most.
func TestMemoWorksOnce(t *testing.T) {
	m, calls := Memo[int, int]{Most: 4}, atomic.Int64{}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			v, err := m.Get(3, func() (int, error) { calls.Add(1); return 9, nil })
			assert.NoError(t, err)
			assert.Equal(t, 9, v)
		})
	}
	all.Wait()
	assert.EqualValues(t, 1, calls.Load())
	bad := errors.New("bad")
	for range 2 {
		_, err := m.Get(4, func() (int, error) { calls.Add(1); return 0, bad })
		assert.ErrorIs(t, err, bad)
	}
	assert.EqualValues(t, 2, calls.Load())
	for i := range 20 {
		_, _ = m.Get(i, func() (int, error) { return i, nil })
		assert.LessOrEqual(t, len(m.kept), 4)
	}
}
