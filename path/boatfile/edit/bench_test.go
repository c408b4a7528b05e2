package edit

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/testdata"
)

// BenchmarkSet changes one value of the largest demo again and again, each time to another from the text that was just written.
func BenchmarkSet(b *testing.B) {
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(b, err)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		text, err = Set(text, "/layouts/0/exhausts/main/line/1/pipe/bore", fmt.Sprintf("%d mm", 100+i%900))
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
