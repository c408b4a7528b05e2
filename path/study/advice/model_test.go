package advice

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws"
)

func model(t testing.TB, all []path.Prediction) *draws.Model {
	t.Helper()
	m, err := draws.NewModel(all)
	require.NoError(t, err)
	return m
}
