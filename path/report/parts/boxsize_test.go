package parts

import (
	"context"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/study/sizing"
)

// A level that other ways forbid is told with the way and what it leaves; what the search holds is in its document and its
// text; a name that is no box is refused.
func TestBoxSizeTellsWhatForbidsATarget(t *testing.T) {
	boat, err := boatfile.LoadFile("../../../testdata/generator-box.yaml")
	require.NoError(t, err)
	l, _ := boat.Layout("lined ducts")
	target := 40.0
	known := known(t, boat)
	d, err := NewBoxSize(context.Background(), known, l, "sound box", 0, sizing.BoxBudget{Level: &target}, true)
	require.NoError(t, err)
	assert.InDelta(t, known.At(l.Name).Listeners[0].DBA(), *d.Present.LevelDBA, 0.1, "the box as it stands has the level of every other answer")
	air := known.At(l.Name).Exhausts[0].Box.Air
	assert.InDelta(t, air.Outside+air.Rise-273.15, *d.Present.TemperatureC, 1e-5, "and its air")
	assert.False(t, d.Reached)
	assert.Greater(t, *d.Floor, target)
	assert.NotEmpty(t, d.Past)
	text := d.Text(form.Units{})
	found := false
	for _, b := range text.Blocks {
		found = found || b.Words == d.sized.Words(&target)
	}
	assert.True(t, found)
	assert.Equal(t, "quietest", d.taken(), "the lightest is only taken of those that are quiet enough")
	raw, err := json.Marshal(d.Document())
	require.NoError(t, err)
	var back map[string]any
	require.NoError(t, json.Unmarshal(raw, &back))
	for _, key := range []string{"layout", "element", "listener", "budget", "best", "front", "floor_dba", "past_the_box", "reached"} {
		assert.Contains(t, back, key)
	}
	assert.Len(t, d.Sheet(), len(d.Front)+1)
	if d.Best != nil {
		for _, w := range d.Best.Ways {
			assert.Less(t, *w.LevelDBA, *d.Best.LevelDBA+1e-9)
		}
	}
	_, err = NewBoxSize(context.Background(), known, l, "sound bax", 0, sizing.BoxBudget{}, true)
	assert.ErrorContains(t, err, "sound box")
}
