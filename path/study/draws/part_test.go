package draws

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/study/draws/drawstest"
)

// The parts of the draws, put together, are the draws that MonteCarlo takes its percentiles of.
func TestPartsMakeTheWhole(t *testing.T) {
	m := model(t, drawstest.Boat(2, 1))
	d := Options{N: 600, Seed: 3}
	s, err := m.MonteCarlo(d)
	require.NoError(t, err)
	var all []float64
	for _, from := range []int{0, 200, 400} {
		part, err := m.Part(d, from, from+200)
		require.NoError(t, err)
		require.Len(t, part[1][0], 200)
		all = append(all, part[1][0]...)
	}
	got := s.Layouts[1].Listeners[0]
	assert.InDelta(t, got.Low, Quantile(all, 0.1), 1e-9)
	assert.InDelta(t, got.High, Quantile(all, 0.9), 1e-9)
	assert.InDelta(t, got.Level, Quantile(all, 0.5), 1e-9)
	for _, at := range [][2]int{{-1, 5}, {5, 5}, {0, 601}} {
		_, err := m.Part(d, at[0], at[1])
		require.ErrorContains(t, err, "do not exist")
	}
}
