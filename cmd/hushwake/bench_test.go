package main

import (
	"bytes"
	"io"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/charts"
	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/report/pictures"
)

// The whole job on the largest demo: load, predict, draw, print, write the page.
func BenchmarkCompareWithReport(b *testing.B) {
	for range b.N {
		name := filepath.Join(b.TempDir(), "page.html")
		require.Equal(b, statusDone, run([]string{"compare", demos + "dry-stack.yaml", "--quiet", "--report", name}, streams{out: io.Discard, err: io.Discard}))
	}
}

// The page alone, after the prediction.
func BenchmarkReport(b *testing.B) {
	boat, err := boatfile.LoadFile(demos + "dry-stack.yaml")
	require.NoError(b, err)
	w, err := selection{}.compare(&common{}, boat)
	require.NoError(b, err)
	var size int
	for b.Loop() {
		r, err := w.Page(form.Units{})
		require.NoError(b, err)
		pictures.Of(w).AddTo(r, form.Units{})
		var page bytes.Buffer
		require.NoError(b, charts.Write(&page, r))
		size = page.Len()
	}
	b.ReportMetric(float64(size), "bytes")
}
