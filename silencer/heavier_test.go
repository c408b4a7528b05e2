package silencer

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Twice the wall, stated or usual, on a copy; a kind without a wall of its own is left alone; lagging goes on a copy too.
func TestHeavierAndLagged(t *testing.T) {
	for _, c := range []struct {
		e    Element
		wall func(Element) float64
		want float64
	}{
		{&Pipe{Bore: 0.1, Length: 1}, func(e Element) float64 { return e.(*Pipe).Wall }, 2 * pipeWall},
		{&Pipe{Bore: 0.1, Length: 1, Wall: 0.002}, func(e Element) float64 { return e.(*Pipe).Wall }, 0.004},
		{&Hose{Bore: 0.05, Length: 1, Wall: 0.006}, func(e Element) float64 { return e.(*Hose).Wall }, 0.012},
	} {
		was := c.wall(c.e)
		heavy, ok := Heavier(c.e)
		require.True(t, ok)
		assert.InDelta(t, c.want, c.wall(heavy), 1e-9)
		assert.Equal(t, was, c.wall(c.e), "the old one stays")
		bare := Lagged(c.e, Lagging{Thickness: 0.03, Material: "mineral wool"})
		assert.Equal(t, 0.03, bare.Base().Lagging.Thickness)
		assert.Zero(t, c.e.Base().Lagging.Thickness)
	}
	_, ok := Heavier(&Given{})
	assert.False(t, ok)
}
