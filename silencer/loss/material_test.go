package loss

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A wall material is a line of the table: found by its name among other words, with all that the sound side needs.
func TestAWallMaterialIsALineOfTheTable(t *testing.T) {
	for _, name := range WallMaterials() {
		m := MaterialOf(name, "")
		require.Equal(t, name, m.Wall.Material)
		require.True(t, m.Wall.Density > 500 && m.Wall.Density < 12000, "%s: %g kg/m3", name, m.Wall.Density)
		require.True(t, m.Wall.Speed >= 100 && m.Wall.Speed < 7000, "%s: %g m/s", name, m.Wall.Speed)
		require.Positive(t, m.Roughness, name)
	}
	require.Equal(t, "stainless 316", MaterialOf("316L tube", "").Wall.Material)
	require.Equal(t, "mild steel", MaterialOf("unobtainium", "").Wall.Material)
	require.Equal(t, "rubber", MaterialOf("", Rubber).Wall.Material)
}
