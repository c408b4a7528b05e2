package silencer

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/silencer/loss"
)

// A wall material is a line of the table: found by its name among other words, with all that the sound side needs.
func TestAWallMaterialIsALineOfTheTable(t *testing.T) {
	for _, name := range loss.WallMaterials() {
		m := wallOf(name, "")
		require.Equal(t, name, m.wall.Material)
		require.True(t, m.wall.Density > 500 && m.wall.Density < 12000, "%s: %g kg/m3", name, m.wall.Density)
		require.True(t, m.wall.Speed >= 100 && m.wall.Speed < 7000, "%s: %g m/s", name, m.wall.Speed)
		require.Positive(t, m.roughness, name)
	}
	require.Equal(t, "stainless 316", wallOf("316L tube", "").wall.Material)
	require.Equal(t, "mild steel", wallOf("unobtainium", "").wall.Material)
	require.Equal(t, "rubber", wallOf("", rubber).wall.Material)
}
