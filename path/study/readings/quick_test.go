package readings

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
)

// A box that is only tried has the heat that the reading leaves; one of the file has its own figures to the bit; without
// readings none moves.
func TestTheAirOfABoxThatIsTried(t *testing.T) {
	b, before := boxed(t, "")
	_, k := boxed(t, inBox("as is", 74, ""))
	l, _ := b.Layout("two bare holes")
	tried := *l
	tried.Enclosures = slices.Clone(l.Enclosures)
	tried.Enclosures[0].Openings = slices.Clone(tried.Enclosures[0].Openings)
	for i := range tried.Enclosures[0].Openings {
		tried.Enclosures[0].Openings[i].Area = 0.05
	}
	boxes, err := path.Boxes(b, &tried)
	require.NoError(t, err)
	moved, err := k.Box(boxes[0])
	require.NoError(t, err)
	factor := airAt(t, k, "as is").Air.Heat / airAt(t, before, "as is").Air.Heat
	assert.InEpsilon(t, factor, moved.Air.Heat/boxes[0].Air.Heat, 0.05, "the heat is what the middle of few draws of the rise carries")
	assert.Less(t, moved.Air.Rise, boxes[0].Air.Rise)
	again, err := before.Box(boxes[0])
	require.NoError(t, err)
	assert.Equal(t, boxes[0].Air, again.Air)
	own, err := k.Box(*airAt(t, before, "as is"))
	require.NoError(t, err)
	assert.Equal(t, airAt(t, k, "as is").Air, own.Air)
}
