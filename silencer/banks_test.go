package silencer_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer"
)

// Twice the flow in the line of a bank is another matter than that of one.
func TestALineOfOneBankIsNotThatOfAWholeEngine(t *testing.T) {
	codes := func(e silencer.Element, power float64, pipes int) []string { return bankCodes(t, e, power, pipes) }
	water := func() silencer.Element { return &silencer.WaterInjection{Flow: 1e-3, Temperature: 300} } // 1 L/min per kW
	assert.NotContains(t, codes(water(), 120e3, 2), "RAW-WATER-LOW")
	assert.NotEqual(t, codes(water(), 200e3, 1), codes(water(), 200e3, 2), "60 L/min for all or for half of it")
	pipe := func() silencer.Element { return &silencer.Pipe{Bore: 0.1, Length: 1} }
	assert.NotEqual(t, codes(pipe(), 300e3, 1), codes(pipe(), 300e3, 2), "a flow too small for the power, or right for half of it")
}
