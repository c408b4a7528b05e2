package scene_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/scene"
)

// What a way through the open air takes is the sum of its steps to the bit, with and without their words: between walls,
// from outlets, by shielding, reflection and air.
func TestGainIsTheSumOfTheSteps(t *testing.T) {
	for _, name := range []string{"dry-stack", "everything"} {
		b := demo(t, name)
		ways, kinds, err := scene.OpenWays(b, b.Layouts[0])
		require.NoError(t, err)
		require.Greater(t, len(ways), 500, name)
		for _, w := range ways {
			require.Equal(t, w[0], w[1], name)
		}
		require.Subset(t, kinds, []string{"spreading", "reflection", "shielding", "directivity"}, name)
	}
}
