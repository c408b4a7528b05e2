package boatfile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/boatfiletest"
)

func TestGuessesAreListedWithTheirPrice(t *testing.T) {
	b, err := boatfiletest.Adding(t, "dry-stack", "guessed:\n  rated power: 4.5 dB")
	require.NoError(t, err)
	assert.Equal(t, []path.Guess{{Of: "rated power", SD: 4.5}}, b.Guesses)
	found := false
	for _, a := range b.Assumptions {
		found = found || a.Field == "guessed rated power" && a.PlusMinusDB == 4.5
	}
	assert.True(t, found)
}

func TestGuessesThatWontDo(t *testing.T) {
	for section, says := range map[string]string{
		"guessed: {rated power: -1 dB}": "negative", "guessed: {rated power: 60 dB}": "too large", "guessed: {rated power: 3}": "no unit", "guessed: {rated power: unknown}": "hint: write what", "guessed: [x]": "mapping",
	} {
		_, err := boatfiletest.Adding(t, "dry-stack", section)
		require.Error(t, err, section)
		assert.Contains(t, strings.ToLower(err.Error()), says, section)
	}
	b, err := boatfiletest.Adding(t, "dry-stack", "guessed: unknown")
	require.NoError(t, err)
	assert.Empty(t, b.Guesses)
}
