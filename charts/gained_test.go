package charts

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path/report"
)

// What takes more off makes it quieter: the sign is that of the level, as the words are.
func TestGainedIsOfTheLevel(t *testing.T) {
	assert.Equal(t, "−12 dB, about half as loud", gained(f64(20), f64(32)))
	assert.Equal(t, "+12 dB, about twice as loud", gained(f64(32), f64(20)))
	assert.Equal(t, "–", gained(nil, f64(20)))
	assert.Equal(t, "−16 dB, about half as loud, 0.45 times by sones", against(f64(77), f64(61), &report.Ear{Times: f64(0.448)}))
	assert.Equal(t, "−16 dB, about a third as loud", against(f64(77), f64(61), &report.Ear{}))
}
