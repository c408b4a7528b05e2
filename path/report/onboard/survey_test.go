package onboard

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/boatfiletest"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/reporttest"
)

// Only what may be fitted is listed: neither today's layout, nor that with a door open, nor a refused one; and what can't
// be told is said once.
func TestAfterFittingListsWhatMayBeFitted(t *testing.T) {
	b := boatfiletest.Demo(t, "dry-stack")
	k := reporttest.Known(t, b, 400)
	w, err := report.NewComparison(b, b.Layouts, 0, k)
	require.NoError(t, err)
	s, err := NewSurveyed(w, b.Layouts[0])
	require.NoError(t, err)
	listed := map[string]bool{}
	for _, x := range s.plan.Acceptance {
		listed[x.Layout] = true
	}
	for i, p := range w.Predictions {
		fits := i > 1 && !p.Refused && !w.Asked(i)
		require.Equal(t, fits, listed[p.Layout.Name], p.Layout.Name)
	}
	require.True(t, opened(b.Layouts[0], b.Layouts[1]))
	require.False(t, opened(b.Layouts[1], b.Layouts[0]), "shutting a gap is work")
	require.False(t, opened(b.Layouts[0], b.Layouts[2]))
	said, tables := "", 0
	for _, x := range s.Text(form.Units{}).Blocks {
		said += fmt.Sprintln(x)
		if x.Table != nil && strings.Contains(fmt.Sprint(*x.Table), "before, read") {
			tables++
		}
	}
	require.Contains(t, said, "root mean square over all layouts", "what its deviations are of")
	require.Equal(t, 1, strings.Count(said, "the level of before lies in the band after"))
	require.Equal(t, 1, tables)
}

// What is expected after fitting is the level that is compared, and what was read before is that of today.
func TestWhatIsExpectedIsWhatIsCompared(t *testing.T) {
	b := boatfiletest.Demo(t, "three-quotes")
	k := reporttest.Known(t, b, 400)
	w, err := report.NewComparison(b, b.Layouts, 0, k)
	require.NoError(t, err)
	d := w.Document().(report.Compare)
	level := *d.Layouts[0].Listeners[0].LevelDBA
	s, err := NewSurveyed(w, b.Layouts[0])
	require.NoError(t, err)
	of := map[string]report.Layout{}
	for _, l := range d.Layouts {
		of[l.Name] = l
	}
	accepted := s.Document().(Survey).Acceptance
	require.NotEmpty(t, accepted)
	for _, x := range accepted {
		if x.Listener == b.Listeners[0].Name {
			assert.NotEqual(t, b.Layouts[0].Name, x.Layout, "today's is not fitted")
			assert.Contains(t, []string{report.VerdictOK, report.VerdictOver}, of[x.Layout].Verdict)
			assert.InDelta(t, *of[x.Layout].Listeners[0].LevelDBA, *x.LevelDBA, 0.3, "a meter's error more")
			assert.InDelta(t, level, *x.ModelDBA, 1e-3)
			assert.InDelta(t, 79, *x.TodayDBA, 1e-9, "as read")
		}
	}
}

// What is to be pasted into the file stays one entry of YAML, also where the page is too narrow for its line.
func TestRecordingsHangBehindTheirDash(t *testing.T) {
	b := boatfiletest.Demo(t, "dry-stack")
	w, err := report.NewComparison(b, b.Layouts, 0, reporttest.Known(t, b, 400))
	require.NoError(t, err)
	s, err := NewSurveyed(w, b.Layouts[0])
	require.NoError(t, err)
	n := 0
	for _, x := range s.Text(form.Units{}).Blocks {
		if strings.HasPrefix(x.Words, "{recording: ") {
			n++
			assert.Equal(t, "  - ", x.First)
		}
	}
	assert.Len(t, s.plan.Recordings, n)
}
