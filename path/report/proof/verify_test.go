package proof

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A ratio is told without a unit, what has one with it.
func TestUnitsOfChecks(t *testing.T) {
	x := 0.25
	assert.Equal(t, "0.25", WithUnit(&x, "1"))
	assert.Equal(t, "0.25 dB", WithUnit(&x, "dB"))
	assert.Equal(t, "none", WithUnit(nil, "1"))
}
