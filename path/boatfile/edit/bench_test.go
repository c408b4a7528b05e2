package edit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/testdata"
)

// BenchmarkSet changes one value of the largest demo back and forth, each time from a text that was just written.
func BenchmarkSet(b *testing.B) {
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(b, err)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		text, err = Set(text, "/layouts/0/exhausts/main/line/1/pipe/bore", [2]string{"128 mm", "5 in"}[i%2])
		require.NoError(b, err)
	}
}

// BenchmarkParse reads that file once.
func BenchmarkParse(b *testing.B) {
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_, err := parseFresh(text)
		require.NoError(b, err)
	}
}
