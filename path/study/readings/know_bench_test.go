package readings

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
)

// BenchmarkKnow is all that compare knows of the largest demo: eight layouts predicted, 10 000 draws moved by seven readings.
func BenchmarkKnow(b *testing.B) {
	boat, err := boatfile.LoadFile("../../../testdata/dry-stack.yaml")
	require.NoError(b, err)
	for b.Loop() {
		_, err := Know(boat, Options{})
		require.NoError(b, err)
	}
}

// BenchmarkMoved is the middle of few draws for one prediction, as a sweep asks for it at each speed.
func BenchmarkMoved(b *testing.B) {
	boat, err := boatfile.LoadFile("../../../testdata/dry-stack.yaml")
	require.NoError(b, err)
	k, err := Know(boat, Options{})
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_, err := k.Moved(k.Central[0])
		require.NoError(b, err)
	}
}
