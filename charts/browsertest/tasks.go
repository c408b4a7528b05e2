package browsertest

import (
	"encoding/json"
	"time"

	"github.com/stretchr/testify/require"
)

// LongestTask is the longest task of the page's main thread while something is done, in ms of that thread's own time:
// other programs on the machine don't count.
func (b *Browser) LongestTask(do func()) (ms float64) {
	b.T.Helper()
	b.Call("Tracing.start", map[string]any{"transferMode": "ReportEvents",
		"traceConfig": map[string]any{"includedCategories": []string{"disabled-by-default-devtools.timeline", "devtools.timeline", "toplevel"}}})
	do()
	for range 2 { // an answer leaves before its task has ended, and a task that has not ended is not in the trace
		b.Eval(`new Promise(function (done) { setTimeout(done, 0); })`, nil)
	}
	b.mu.Lock()
	b.seen = nil
	b.mu.Unlock()
	b.Call("Tracing.end", nil)
	require.Eventually(b.T, func() bool {
		return len(b.events("Tracing.tracingComplete")) > 0
	}, 60*time.Second, 50*time.Millisecond, "the trace never ended")
	tasks := 0
	for _, raw := range b.events("Tracing.dataCollected") {
		var part struct{ Value []traced }
		require.NoError(b.T, json.Unmarshal(raw, &part))
		for _, e := range part.Value {
			if e.Name == "RunTask" && e.ThreadTime > 0 {
				tasks++
				ms = max(ms, e.ThreadTime/1000)
			}
		}
	}
	require.Positive(b.T, tasks, "no task was traced")
	return ms
}

// traced is an event of a trace; times in µs.
type traced struct {
	Name       string  `json:"name"`
	ThreadTime float64 `json:"tdur"`
}

// events are those of a kind since the last look.
func (b *Browser) events(method string) (all []json.RawMessage) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, m := range b.seen {
		if m.Method == method {
			all = append(all, m.Params)
		}
	}
	return all
}
