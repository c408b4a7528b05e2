package recordingtest

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/recording/audio"
)

// Save writes samples as a WAV file of 24 bits into a directory of the test's own.
func Save(t testing.TB, name string, rate int, samples []float64) string {
	t.Helper()
	name = filepath.Join(t.TempDir(), name)
	f, err := os.Create(name)
	require.NoError(t, err)
	require.NoError(t, audio.Write(f, audio.Format{Rate: rate, Channels: 1, Bits: 24}, samples))
	require.NoError(t, f.Close())
	return name
}
