package source

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/source/cycle"
)

// The phases of lines are those of all pulses one after the other: a waveform put together from shifted pulses has them, of an
// engine that fires evenly and of a twin that does not.
func TestPhasesOfLinesAreThoseOfAllPulses(t *testing.T) {
	none := 0.0
	for _, e := range []Engine{
		{Cylinders: 6, Stroke: TwoStroke, Rated: Duty{Speed: 1800, Power: 150e3}, Scatter: &none},
		{Cylinders: 2, Stroke: FourStroke, Rated: Duty{Speed: 3000, Power: 15e3}, Scatter: &none, FiringAngles: []float64{0, math.Pi}},
	} {
		single := e.pulse(e.Rated)
		n := len(single)
		all := make([]float64, n)
		for _, angle := range e.Pulses() {
			late := int(math.Round(angle / e.period() * float64(n)))
			for i, v := range single {
				all[(i+late)%n] += v
			}
		}
		phases, levels := e.LinePhases(e.Rated), cycle.Lines(all, 12)
		want := cycle.Phases(all, 12)
		for k, level := range levels {
			if level > 0.05 {
				off := math.Remainder(phases[k]-want[k], 2*math.Pi)
				require.InDelta(t, 0, off, 0.05*float64(k+1), "%d cylinders, multiple %d", e.Cylinders, k+1)
			}
		}
	}
}

func TestAnEngineBeyondTheCycleHasASmoothPulse(t *testing.T) {
	e := Engine{Cylinders: 1, Stroke: FourStroke, Rated: Duty{Speed: 1e-3, Power: 1}}
	require.NotEmpty(t, e.LinePhases(e.Rated))
}
