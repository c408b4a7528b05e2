package parts

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/report/reporttest"
	"hushwake/path/scene"
	"hushwake/path/study/sizing"
)

// A level that other ways forbid is told with the way and what it leaves; what the search holds is in its document and its
// text; a name that is no box is refused.
func TestBoxSizeTellsWhatForbidsATarget(t *testing.T) {
	boat, err := boatfile.LoadFile("../../../testdata/generator-box.yaml")
	require.NoError(t, err)
	l, _ := boat.Layout("lined ducts")
	target := 40.0
	known := reporttest.Known(t, boat, 400)
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

// One way has one level in every answer: what passes a box, that through mounts and hull among it, is in 'enclosure' and 'size' as
// the whole prediction has it, and so is the sentence on it.
func TestOneLevelPastABox(t *testing.T) {
	boat, err := boatfile.LoadFile("../../../testdata/generator-box.yaml")
	require.NoError(t, err)
	known := reporttest.Known(t, boat, 400)
	l, _ := boat.Layout("as is")
	d, err := NewBoxSize(context.Background(), known, l, "sound box", 0, sizing.BoxBudget{}, true)
	require.NoError(t, err)
	used, err := UsedBoxes(boat)
	require.NoError(t, err)
	boxes, err := NewBoxes(known, used[0], used)
	require.NoError(t, err)
	borne := boxes.Shown.borne["pillow"][0].Level.DBA()
	found := false
	for _, w := range d.sized.Rest {
		if w.Way == path.ByStructure {
			found = true
			assert.InDelta(t, borne, w.DBA, 1e-6)
		}
	}
	assert.True(t, found)
	ways, floor := scene.PastBox(known.At("as is"), "sound box", &known.At("as is").Listeners[0])
	assert.InDelta(t, floor, d.sized.Floor, 1e-6)
	assert.Greater(t, floor, borne+3, "more than the mounts leave")
	assert.Contains(t, boxes.Document().(Enclosure).Cap, scene.PastWords("pillow", ways, floor))
	assert.Contains(t, d.sized.Words(nil), scene.PastWords("pillow", ways, floor))
	assert.Contains(t, boxes.Shown.borne["pillow"][0].Text, "nobody hears that at pillow")
	assert.Equal(t, "no fan does it", cellOf(airTable(boxes.Shown.box.Air, boxes.Shown.box.Running, form.Units{}), "fan pressure"))
	assert.Contains(t, strings.Join(boxes.Warnings(form.Units{}), "; "), "they are too small")
	for i, c := range boxes.Shown.box.Sound.Changes {
		assert.Equal(t, form.Signed(boxes.Shown.box.Sound.DBA-c.DBA), changeTable(boxes.Shown.box.Sound, form.Units{}).Rows[i][2], "below zero is quieter")
	}
	p, err := known.Quick(known.Central[0])
	require.NoError(t, err)
	at := map[string]float64{}
	for _, r := range known.At("as is").Listeners[0].Routes {
		at[r.Source+r.Route] = r.DBA()
	}
	for _, r := range p.Listeners[0].Routes {
		assert.InDelta(t, at[r.Source+r.Route], r.DBA(), 1e-6, r.Route)
	}
}

// cellOf is the last cell of the row of that name.
func cellOf(t *form.Table, name string) string {
	for _, r := range t.Rows {
		if r[0] == name {
			return r[len(r)-1]
		}
	}
	return ""
}
