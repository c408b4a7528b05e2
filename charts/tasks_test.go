package charts

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The page opens in tasks short enough that a telephone of a quarter of the speed answers a finger within 200 ms: none
// takes 50 ms of its thread's own time. One that is made too long by hand is found.
func TestPageOpensInShortTasks(t *testing.T) {
	b := startBrowser(t)
	b.Size(390, false)
	page := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(page, written(t, full()), 0o600))
	b.Visit(page) // warm
	longest := b.LongestTask(func() { b.Visit(page) })
	t.Logf("longest task %.1f ms", longest)
	assert.Less(t, longest, 50.0)
	assert.Greater(t, b.LongestTask(func() {
		b.Eval(`(function () { for (var t = performance.now() + 2000, n = 0; performance.now() < t; n++); return n; })()`, new(int))
	}), 50.0)
}
