package boatfile

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/recording"
	"hushwake/path/recording/recordingtest"
)

// A boat file names its recordings from where it lies; what they show is in the reading.
func TestARecordingIsRead(t *testing.T) {
	e := recordingtest.Engine{Cylinders: 4, Speed: 1800, Noise: -10, Seed: 1}
	wav := recordingtest.Save(t, "helm.wav", 8000, e.Record(8000, 8).Samples)
	folder := filepath.Dir(wav)
	text, err := Starter("dry-stack")
	require.NoError(t, err)
	load := func(reading string) (string, error) {
		at := filepath.Join(folder, "boat.yaml")
		require.NoError(t, os.WriteFile(at, []byte(strings.Replace(string(text), "\nreadings:", "\nreadings:\n  - "+reading+"\n", 1)), 0o600))
		b, err := LoadFile(at)
		if err != nil {
			return "", err
		}
		r := b.Readings[0]
		require.NotNil(t, r.Recording, reading)
		if r.Strike {
			return "struck", nil
		}
		l, err := recording.Measure(wav)
		require.NoError(t, err)
		require.Equal(t, l.Bands, r.Recording.Bands)
		require.Equal(t, l.A, r.Recording.A)
		require.Equal(t, "helm.wav", r.Recording.File)
		warned := strings.Join(b.Warnings, "\n")
		require.Contains(t, warned, "no 8 kHz octave")
		if r.Level != nil {
			require.Equal(t, besideSD, r.PlusMinus)
		}
		return "read", nil
	}
	b, err := Load("boat.yaml", []byte(strings.Replace(string(text), "\nreadings:", "\nreadings:\n  - {recording: helm.wav, layout: as found}\n", 1)))
	require.NoError(t, err)
	require.Nil(t, b.Readings[0].Recording)
	require.Contains(t, strings.Join(b.Warnings, "\n"), "without a place is not used")
	for reading, want := range map[string]string{
		"{recording: helm.wav, listener: helm, layout: as found}":                                "read",
		"{recording: helm.wav, space: engine space, layout: as found}":                           "read",
		"{recording: helm.wav, listener: helm, layout: as found, level: 84.5 dBA}":               "read",
		"{recording: none.wav, listener: helm, layout: as found, strike: true}":                  "struck",
		"{recording: none.wav, listener: helm, layout: as found}":                                "does not exist",
		"{recording: boat.yaml, listener: helm, layout: as found}":                               "neither WAV nor FLAC",
		"{recording: helm.wav, listener: helm, layout: as found, temperature: 40 °C}":            "two readings",
		"{recording: helm.wav, listener: helm, bands: [80, 82, 84, 80, 76, 72, 68, 60, 52]}":     "two readings",
		"{recording: helm.wav, listener: helm, layout: as found, recordings: helm.wav}":          "recordings",
		"{recording: " + wav + ", listener: helm, layout: as found, strike: true, weighting: A}": "struck",
	} {
		got, err := load(reading)
		if err != nil {
			got = err.Error()
			require.Regexp(t, `boat.yaml:\d+:\d+`, got)
		}
		require.Contains(t, got, want, reading)
	}
}
