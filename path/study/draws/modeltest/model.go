// Package modeltest makes the model of some predictions, and its draws, for the tests of what is done with them.
package modeltest

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// Of is the model of predictions.
func Of(t testing.TB, all []path.Prediction) *draws.Model {
	t.Helper()
	m, err := draws.NewModel(all)
	require.NoError(t, err)
	return m
}

// Drawn is what is known before any reading.
func Drawn(t testing.TB, m *draws.Model) *draws.Ensemble {
	t.Helper()
	e, err := m.Draw(draws.Options{})
	require.NoError(t, err)
	return e
}
