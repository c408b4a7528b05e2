package enquiry

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

// The request for a whole shield holds every part of it, the fan where it works, and a test at 1 m, at 7 m and at the bunk.
func TestShieldEnquiryHoldsTheWholeShield(t *testing.T) {
	b, err := boatfile.LoadFile("../../../testdata/generator-box.yaml")
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
	inches := w.Markdown(form.Units{System: quantity.Imperial})
	for _, part := range []string{"45 1/4 in x 26 3/4 in inside", "0.2 in under the engine's weight", "3.3 ft from each face", "23 ft from it"} {
		assert.Contains(t, inches, part)
	}
	air := k.At(l.Name).Exhausts[0].Box.Air
	assert.Contains(t, text, form.Units{}.Draught(air.Fan.Pressure)+" where it works here")
	assert.Contains(t, text, fmt.Sprintf("That takes %s in from outdoors", form.Units{}.Show(air.Needed, quantity.VolumeFlow)), "after the readings, as everywhere")
	assert.Contains(t, text, fmt.Sprintf("The fan drawn gives %s at %s with the holes and ducts below: %.0f %% over", form.Units{}.Show(air.Flow, quantity.VolumeFlow), form.Units{}.Draught(air.Fan.Pressure), 100*(air.Flow/air.Needed-1)))
	seat := k.At(l.Name).Listeners[0]
	whole := w.through
	for _, r := range w.past {
		whole = spectrum.Sum(whole, r.DBA())
	}
	assert.InDelta(t, seat.DBA(), whole, 1e-9, "out of the box and past it are all")
	assert.Contains(t, text, "wall of hose 4, cabin bulkhead. The 45 dB(A) wanted there are not the shield's")
	set := settings(air)
	assert.Less(t, set.off, set.on)
	assert.Less(t, set.on, set.normal-2, "the fan must not hunt round the box's own temperature")
	assert.Less(t, set.normal, set.alarm)
	assert.Less(t, set.alarm, air.Outside+air.AllowedRise, "the alarm comes before the limit")
	assert.InDelta(t, 42+273.15, air.Outside+air.AllowedRise, 1e-9)
	assert.InDelta(t, 13, w.near[0]-w.near[1], 3, "spreading from the walls, 1 m to 7 m")
	for _, c := range w.cuts(form.Units{}) {
		for _, cell := range c {
			assert.NotEmpty(t, strings.TrimSpace(cell), "%v", c)
		}
	}
	bare, _ := b.Layout("as is")
	w, err = NewShield(k, bare, "sound box", 0)
	require.NoError(t, err)
	text = w.Markdown(form.Units{})
	assert.Contains(t, text, "at 42 °C, the limit: as drawn", "a box that is too hot has no room for an alarm")
	assert.Contains(t, text, "none is drawn")
	assert.Contains(t, text, "less than is needed")
	assert.NotContains(t, text, "thermostat of the fan", "there is none")
	tight, _ := b.Layout("tight box, water-cooled")
	w, err = NewShield(k, tight, "sound box", 0)
	require.NoError(t, err)
	assert.Contains(t, w.Markdown(form.Units{}), "no air has to pass")
	assert.Contains(t, w.Markdown(form.Units{}), "air pipe of the engine")
	_, err = NewShield(k, l, "no box", 0)
	assert.ErrorContains(t, err, "sound box")
}
