package source

import (
	"testing"

	"hushwake/source/spectrum"
)

// What falls to one pipe, taken for all, is the whole again; an engine that tells no pipes has one.
func TestPipesShareTheWhole(t *testing.T) {
	for n, count := range map[Pipes]float64{0: 1, 1: 1, 2: 2, 3: 3} {
		near(t, "flow of one pipe", float64(EngineFlow(0.6).Each(n)), 0.6/count, 1e-15)
		near(t, "flow of all pipes", float64(EngineFlow(0.6).Each(n).All(n)), 0.6, 1e-15)
		near(t, "power of one pipe", n.Share(90e3), 90e3/count, 1e-9)
		near(t, "length of all lines", n.All(4), 4*count, 1e-12)
		near(t, "level of all pipes", spectrum.Power(n.Level()), count, 1e-12)
		near(t, "an order of all pipes", spectrum.Power(PipeOrder{2, 80, 60}.All(n).Level-60), count, 1e-12)
		whole := Part{Bands: spectrum.Fill(100)}
		near(t, "level of one pipe", spectrum.Power(100-whole.each(n).Bands[3]), count, 1e-12)
	}
}
