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
