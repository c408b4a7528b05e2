package form

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path/boatfile"
)

// An inch is 25.4 mm (exact, international yard and pound agreement of 1959).
func TestSizesInSixteenths(t *testing.T) {
	imperial := Units{boatfile.Imperial}
	for metres, want := range map[float64]string{0.0635: "2 1/2 in", 0.1016: "4 in", 0.102: "4 in", 0.0015875: "1/16 in", 0.0047625: "3/16 in", 0: "0 in", 0.0007: "0 in", -0.0127: "-1/2 in",
		0.02539: "1 in", 0.30480: "12 in", 0.010: "3/8 in"} {
		assert.Equal(t, want, imperial.Size(metres))
	}
	assert.Equal(t, "102 mm", Units{}.Size(0.102))
}
