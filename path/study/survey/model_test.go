package survey

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

// drawn is what is known before any reading.
func drawn(t testing.TB, m *draws.Model) *draws.Ensemble {
	t.Helper()
	e, err := m.Draw(draws.Options{})
	require.NoError(t, err)
	return e
}
