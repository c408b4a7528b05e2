package cycle

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestPhasesOfAKnownSignal(t *testing.T) {
	signal := make([]float64, 360)
	for i := range signal {
		x := 2 * math.Pi * float64(i) / 360
		signal[i] = 3 + math.Cos(x-0.7) + 0.2*math.Cos(3*x+1.2)
	}
	p := Phases(signal, 3)
	require.InDelta(t, -0.7, p[0], 1e-9)
	require.InDelta(t, 1.2, p[2], 1e-9)
	require.Len(t, Phases(signal[:4], 100), 2)
	require.Empty(t, Phases(nil, 5))
}
