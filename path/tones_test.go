package path

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/source"
	"hushwake/source/spectrum"
)

// Energy is kept: orders and what lies between them are the octave, and the share on orders is theirs.
func TestShareOfOrders(t *testing.T) {
	set := newTones([]source.Order{{Frequency: 120, Level: 60}, {Frequency: 130, Level: 60}}, nil, spectrum.Fill(60), spectrum.Bands{})
	bands, _ := set.heard(spectrum.Bands{})
	require.InDelta(t, 60+10*math.Log10(3), bands[2], 1e-9)
	require.InDelta(t, 2.0/3, set.tonal()[2], 1e-9)
	require.Zero(t, set.tonal()[4])
}
