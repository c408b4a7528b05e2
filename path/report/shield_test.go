package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
)

// The request for a whole shield holds every part of it, the fan where it works, and a test at 1 m, at 7 m and at the bunk.
func TestShieldEnquiryHoldsTheWholeShield(t *testing.T) {
	b, err := boatfile.LoadFile("../../testdata/generator-box.yaml")
	require.NoError(t, err)
	k, err := readings.Know(b, readings.Options{Options: draws.Options{N: 200, Seed: 1}})
	require.NoError(t, err)
	l, ok := b.Layout("heavier mat, ducts and fan")
	require.True(t, ok)
	w, err := NewShield(k, l, "sound box", 0)
	require.NoError(t, err)
	text := w.Markdown(form.Units{})
	for _, part := range []string{"12 mm plywood", "25 mm foam", "5 kg/m2 limp mat", "inlet duct", "outlet duct", "240 mm x 150 mm", "seal of the lid", "mounts under set", "thermostat", "fire port",
		"1 m from each face", "7 m from it", "At pillow", "comfort class"} {
		assert.Contains(t, text, part)
	}
	boxes, err := path.Boxes(b, l)
	require.NoError(t, err)
	fan := boxes[0].Air.Fan
	assert.Contains(t, text, form.Units{}.Draught(fan.Pressure)+" where it works here")
	assert.InDelta(t, 13, w.near[0]-w.near[1], 3, "spreading from the walls, 1 m to 7 m")
	for _, c := range w.cuts(form.Units{}) {
		for _, cell := range c {
			assert.NotEmpty(t, strings.TrimSpace(cell), "%v", c)
		}
	}
	_, err = NewShield(k, l, "no box", 0)
	assert.ErrorContains(t, err, "sound box")
}
