package boatfile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A packed shell whose holes end before it does says that all of it is packed; a stated packing of the whole
// length says nothing more.
func TestWhatIsPackedIsSaid(t *testing.T) {
	said := func(more string) bool {
		b, err := Load("packed.yaml", []byte(`boat: x
bench: {gas: air}
layouts:
  - exhausts: {bench: {line: [packed: {bore: 50 mm, chamber_bore: 150 mm, length: 600 mm, porosity: 27 %, hole: 3 mm, flow_resistivity: 10000 Pa.s/m2`+more+`}]}}
`))
		require.NoError(t, err)
		for _, a := range b.Assumptions {
			if strings.Contains(a.Field, "packing of packed") {
				return true
			}
		}
		return false
	}
	assert.False(t, said(""))
	assert.False(t, said(", perforated: [0 mm, 600 mm]"))
	assert.False(t, said(", perforated: [20 mm, 580 mm]"), "plain ends")
	assert.True(t, said(", perforated: [0 mm, 300 mm]"))
	assert.True(t, said(", perforated: [100 mm, 600 mm]"))
	assert.False(t, said(", perforated: [0 mm, 300 mm], packing: whole"))
}
