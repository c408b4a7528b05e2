package wet

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What is kept of a hose is that hose's, however many are asked for between.
func TestHosesAreToldApart(t *testing.T) {
	base := Tube{Bore: 0.1, Wall: 0.008, Length: 1.5}
	other := []Tube{{0.09, 0.008, 1.5, ""}, {0.1, 0.006, 1.5, ""}, {0.1, 0.008, 1.6, ""}, {0.1, 0.008, 1.5, HoseSoft}}
	for i := range 2 * mostTubes {
		other = append(other, Tube{0.05 + 0.001*float64(i), 0.008, 1.5, HoseHard})
	}
	base.BreakOut()
	for _, x := range other {
		require.Equal(t, x.breakOut(), x.BreakOut())
		require.NotEqual(t, base.BreakOut(), x.BreakOut())
		var got, want WallTake
		got.Add(x, 0.5, 600)
		x.each(func(k, i int, omega, modulus float64) {
			want[k][i] = x.Decay(omega, 0.5, 600, x.spread(omega, modulus)) * x.Length
		})
		require.Equal(t, want, got)
	}
	require.LessOrEqual(t, len(knownBreakOuts.known), mostTubes)
}
