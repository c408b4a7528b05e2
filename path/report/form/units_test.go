package form

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path/boatfile/quantity"
)

// An inch is 25.4 mm (exact, international yard and pound agreement of 1959).
func TestSizesInSixteenths(t *testing.T) {
	imperial := Units{quantity.Imperial}
	for metres, want := range map[float64]string{0.0635: "2 1/2 in", 0.1016: "4 in", 0.102: "4 in", 0.0015875: "1/16 in", 0.0047625: "3/16 in", 0: "0 in", 0.0007: "0 in", -0.0127: "-1/2 in",
		0.02539: "1 in", 0.30480: "12 in", 0.010: "3/8 in"} {
		assert.Equal(t, want, imperial.Size(metres))
	}
	assert.Equal(t, "102 mm", Units{}.Size(0.102))
}

// Pressures under one another have one number of decimals, whatever their last digit is.
func TestGaugesAreOfOneKind(t *testing.T) {
	metric, imperial := Units{}, Units{System: quantity.Imperial}
	assert.Equal(t, []string{"6.70 kPa", "0.09 kPa"}, []string{metric.Gauge(6700), metric.Gauge(85)})
	assert.Equal(t, []string{"26.9 in H₂O", "6.0 in H₂O"}, []string{imperial.Gauge(6700), imperial.Gauge(6 * 249.08891)})
}
