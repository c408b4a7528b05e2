package advice

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A chance over 80 % that sets wet against dry says in its own sentence that nothing was measured; between lines of one
// kind, or at less, it does not.
func TestChanceOfWetAgainstDry(t *testing.T) {
	said := func(chance float64, wet, other bool) bool {
		r := Ranking{Listener: "helm", Rows: []Ranked{{Layout: "a", Level: 70, Quietest: chance, Wet: wet}, {Layout: "b", Level: 80, Wet: other}}}
		first := Answer(Advice{}, r, nil, false)[1]
		require.Equal(t, 1, strings.Count(first, "%"))
		return strings.HasSuffix(first, unmeasured+".")
	}
	require.True(t, said(.9, true, false))
	require.True(t, said(.9, false, true))
	require.False(t, said(.9, true, true))
	require.False(t, said(.9, false, false))
	require.False(t, said(.7, true, false))
}
