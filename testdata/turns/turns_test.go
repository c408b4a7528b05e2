package turns

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// So many runs as the share take each case once; all are taken where all are wanted.
func TestEveryCaseHasItsTurn(t *testing.T) {
	t.Setenv("HUSHWAKE_ALL", "")
	t.Setenv("HUSHWAKE_TURN", "0")
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

// A turn asked for is taken; without one the first.
func TestATurnMayBeAskedFor(t *testing.T) {
	t.Setenv("HUSHWAKE_ALL", "")
	t.Setenv("HUSHWAKE_TURN", "6")
	assert.Equal(t, []int{2, 6}, slices.Collect(Of(t, 8, 4)))
	t.Setenv("HUSHWAKE_TURN", "")
	assert.Zero(t, asked())
	t.Setenv("HUSHWAKE_TURN", "-1")
	assert.Panics(t, func() { asked() })
}

// failing is a test that failed in its turn.
type failing struct{ said, name string }

func (f *failing) Name() string                    { return f.name }
func (f *failing) Failed() bool                    { return true }
func (f *failing) Logf(format string, args ...any) { f.said += fmt.Sprintf(format, args...) }
func (f *failing) Cleanup(do func())               { do() }

func TestAFailureTellsItsTurn(t *testing.T) {
	t.Setenv("HUSHWAKE_ALL", "")
	t.Setenv("HUSHWAKE_TURN", "40")
	f := &failing{name: t.Name()}
	Of(f, 10, 3)
	Of(f, 10, 3)
	assert.Equal(t, "the same cases again: HUSHWAKE_TURN=40the same cases again: HUSHWAKE_TURN=41", f.said)
	f.said = ""
	t.Setenv("HUSHWAKE_ALL", "1")
	Of(f, 10, 3)
	assert.Empty(t, f.said)
}
