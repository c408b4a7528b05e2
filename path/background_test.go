package path

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The band of eight cases of ten lies 1.28 standard deviations to either side.
func TestBackgroundSaysItsMiddle(t *testing.T) {
	assert.Equal(t, "30 dB(A), in eight cases of ten 20 to 40,", UsualBackground("cabin").Middle())
	assert.Equal(t, "52 dB(A), in eight cases of ten 49 to 55,", Background{Bands: BackgroundOf(52), SD: BackgroundSD}.Middle())
}
