package parts

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/source"
	"hushwake/source/spectrum"
)

// What an engine lacks is null, never a row of zeros.
func TestPartsThatAnEngineLacks(t *testing.T) {
	assert.Nil(t, partLevels(nil))
	assert.Len(t, partLevels(&source.Part{Bands: spectrum.Fill(80)}), spectrum.N)
}
