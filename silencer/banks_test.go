package silencer_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/source"
)

// What is said of the line of one bank of an engine is what is said of the same line behind an engine of half
// the power, for every kind: flow for its power, raw water, limits. Twice the flow in the line is another matter.
func TestALineOfOneBankIsThatOfHalfAnEngine(t *testing.T) {
	codes := func(e silencer.Element, power float64, pipes int) (all []string) {
		l := between(e)
		f := exhaust(0.1, 420)
		m, err := l.March(f, silencer.Options{})
		require.NoError(t, err)
		engine := source.Engine{Stroke: source.FourStroke, Cylinders: 4 * pipes, Rated: source.Duty{Power: power, Speed: 2400}}
		for _, x := range l.Findings(silencer.Circumstances{Engine: engine, Rated: m, Running: m, RatedFeed: f, Pipes: pipes}) {
			all = append(all, x.Code+" "+x.Text)
		}
		return all
	}
	for _, x := range examples() {
		t.Run(x.name, func(t *testing.T) {
			assert.Equal(t, codes(x.make(), 60e3, 1), codes(x.make(), 120e3, 2))
		})
	}
	water := func() silencer.Element { return &silencer.WaterInjection{Flow: 1e-3, Temperature: 300} } // 1 L/min per kW
	assert.NotContains(t, codes(water(), 120e3, 2), "RAW-WATER-LOW")
	assert.NotEqual(t, codes(water(), 200e3, 1), codes(water(), 200e3, 2), "60 L/min for all or for half of it")
	pipe := func() silencer.Element { return &silencer.Pipe{Bore: 0.1, Length: 1} }
	assert.NotEqual(t, codes(pipe(), 300e3, 1), codes(pipe(), 300e3, 2), "a flow too small for the power, or right for half of it")
}
