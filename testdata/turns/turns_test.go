package turns

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// So many runs as the share take each case once; all are taken where all are wanted.
func TestEveryCaseHasItsTurn(t *testing.T) {
	t.Setenv("HUSHWAKE_ALL", "")
	var taken []int
	for range 4 {
		taken = append(taken, slices.Collect(Of(t, 10, 4))...)
	}
	assert.Equal(t, []int{0, 4, 8}, taken[:3])
	slices.Sort(taken)
	assert.Equal(t, []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, taken)
	t.Setenv("HUSHWAKE_ALL", "1")
	assert.Len(t, slices.Collect(Of(t, 10, 4)), 10)
	for range Of(t, 10, 1) {
		break
	}
}
