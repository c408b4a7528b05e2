package source

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/source/cores"
	"hushwake/source/cycle"
)

// A cycle that many ask for at once is one, whatever the blower is held in; another step or line pressure is another. One that
// can't be gives its error each time.
func TestCyclesAreSharedBetweenAll(t *testing.T) {
	e := twoStroke()
	rated, _ := e.ratedRates()
	g := e.ratesAt(e.Rated, rated)
	of := func(pressure, step float64) (*cycled, error) {
		return cycleOf(e.cylinder(), e.cylinderRunning(e.Rated, g, rated, pressure), step)
	}
	all, errs := make([]*cycled, 8), make([]error, 8)
	cores.Each(len(all), func(i int) { all[i], errs[i] = of(0, cycle.FineStep) })
	for i := range all {
		require.NoError(t, errs[i])
		require.Same(t, all[0], all[i])
	}
	res, err := cycle.Run(e.cylinder(), e.cylinderRunning(e.Rated, g, rated, 0), cycle.FineStep)
	require.NoError(t, err)
	require.Equal(t, res.Work, all[0].Work)
	require.Equal(t, res.Lines(cycleLines), all[0].lines)
	for _, other := range [][2]float64{{5e3, cycle.FineStep}, {0, cycle.CoarseStep}} {
		c, err := of(other[0], other[1])
		require.NoError(t, err)
		require.NotEqual(t, all[0].Work, c.Work)
	}
	for range 2 {
		_, err = of(0, 90)
		require.Error(t, err)
	}
}
