package charts

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report/proof"
)

// sampleRecord is invented: readings, a range, both sorts of limit, a difference, a row that set a constant.
func sampleRecord() *proof.PageRecord {
	row := func(name, group string, low, high *float64, p float64) proof.MeasuredRow {
		return proof.MeasuredRow{ID: name, Seat: "helm", Group: group, LowMeasured: low, HighMeasured: high, Unit: "dB(A)", Predicted: f64(p), Low: f64(p - 6), High: f64(p + 7),
			Verdict: "inside", Title: "boat of " + name, Source: "an invented log", Deviation: f64(1)}
	}
	r := &proof.PageRecord{Version: "0.1", Answer: []string{"Four of five rows lie inside."}, Rows: []proof.MeasuredRow{
		row("a/1", "wet open", f64(71), f64(71), 74), row("a/2", "wet open", f64(90), f64(94), 92), row("b/1", "dry stack", nil, f64(67), 70),
		row("b/2", "dry stack", f64(100), nil, 103), row("c/1", "engine room", f64(104), f64(104), 109)},
		Groups: []proof.MeasuredGroup{{Group: "wet open", N: 2, Bias: f64(1.5), Spread: f64(2), InsideShare: f64(1)}}, All: proof.MeasuredGroup{Group: "all", N: 5, Limits: 2, Bias: f64(2), Spread: f64(3), InsideShare: f64(0.8)}}
	difference := row("d/1", "wet open", f64(-4.8), f64(-4.8), -6)
	difference.Unit = "dB"
	set := row("e/1", "source spectra", f64(121.9), f64(121.9), 125.2)
	set.SetsConstant, set.Verdict = "a doubt", "far outside"
	set.Octaves = []proof.MeasuredOctave{{Hertz: 63, Measured: f64(96), Predicted: f64(110), Low: f64(103), High: f64(117)}}
	r.Rows = append(r.Rows, difference, set)
	return r
}

func recordPageOf(t *testing.T, r *proof.PageRecord) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, WriteRecord(&b, r))
	return b.String()
}

func TestRecordPageDrawsCleanly(t *testing.T) {
	path := filepath.Join(t.TempDir(), "record.html")
	require.NoError(t, os.WriteFile(path, []byte(recordPageOf(t, sampleRecord())), 0o600))
	b := startBrowser(t)
	b.Size(1280, false)
	b.Visit(path)
	b.DrawAll()
	for _, width := range []int{1280, 390} {
		b.Size(width, false)
		b.inspect(fmt.Sprintf("record at %d", width), path)
		b.Pictures(fmt.Sprintf("record-%d", width))
	}
}

// The table says all that the chart shows, and the rows that the chart can't.
func TestRecordPageSaysEveryRow(t *testing.T) {
	page := recordPageOf(t, sampleRecord())
	for _, want := range []string{"at most 67.0", "at least 100.0", "90.0 to 94.0", "−4.8", "far outside", "a doubt", "an invented log", "116", "Octaves of e/1", `"num">&#43;1.0<`} {
		assert.Contains(t, page, want)
	}
	chart := page[strings.Index(page, `data-for="record"`):]
	chart = chart[:strings.Index(chart, "</script>")]
	assert.NotContains(t, chart, "d/1", "a difference is no level")
	assert.Contains(t, chart, `"value":[92,92,90,94,86,99]`, "a range stands at its middle, with both its ends")
	assert.Contains(t, chart, `"value":[67,70,67,67,64,77]`, "a limit stands at itself")
	for _, name := range []string{"a/1", "a/2", "b/1", "b/2", "c/1", "e/1"} {
		assert.Contains(t, chart, name)
	}
}

func TestRecordPageRefuses(t *testing.T) {
	var b bytes.Buffer
	require.Error(t, WriteRecord(&b, nil))
	require.Error(t, WriteRecord(&b, &proof.PageRecord{}))
	broken := sampleRecord()
	broken.Rows[1].High = f64(math.NaN())
	require.ErrorContains(t, WriteRecord(&b, broken), "Rows[1].High")
	broken.Rows[1].High = nil
	require.ErrorContains(t, WriteRecord(&b, broken), "a/2, lacks its prediction")
	assert.Zero(t, b.Len(), "nothing is written")
	alone := &proof.PageRecord{Rows: []proof.MeasuredRow{sampleRecord().Rows[5]}}
	assert.Contains(t, recordPageOf(t, alone), "there is no chart")
}
