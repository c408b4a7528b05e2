package published

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestACitationIsChangedInOneOfItsThreeParts(t *testing.T) {
	c := By("K = 1", "momentum balance", "derived")
	require.Equal(t, Cited{"K = 1", "momentum balance", "read"}, c.Marked("read"))
	require.Equal(t, Cited{"K = 2", "momentum balance", "derived"}, c.Saying("K = 2"))
	require.Equal(t, Cited{"K = 1; head", "momentum balance; drift flux", "derived"}, c.And("head", "drift flux"))
	require.Equal(t, Cited{"K = 1", "momentum balance", "derived"}, c, "a citation is a value")
}

// What documents promise is formula, source and mark beside their other keys, not in an object of their own.
func TestACitationStandsFlatInADocument(t *testing.T) {
	b, err := json.Marshal(struct {
		Name string `json:"name"`
		Cited
		SD float64 `json:"sd"`
	}{"exit", By("K = 1", "momentum balance", "derived"), 0.1})
	require.NoError(t, err)
	require.Equal(t, `{"name":"exit","formula":"K = 1","source":"momentum balance","mark":"derived","sd":0.1}`, string(b))
}
