package path

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/source"
	"hushwake/source/said"
)

// What back pressure costs is told with its doubt, in air and power, and for each kPa.
func TestCostOfPressureIsTold(t *testing.T) {
	r := &ExhaustResult{Engine: "main"}
	_, ok := costFinding(&Boat{}, r)
	assert.False(t, ok)
	r.Cost = &source.Cost{Pressure: 4e3, Air: 0.008, SDAir: 0.003, Power: 0.012, SDPower: 0.005, Fuel: 0.012, SDFuel: 0.004}
	f, ok := costFinding(&Boat{}, r)
	assert.True(t, ok)
	assert.Contains(t, f.Text, "0.8 % (± 0.3) of its air and 1.2 % (± 0.5) of its power, or 1.2 % (± 0.4) more fuel for the same power")
	assert.Contains(t, said.Plain(f.Text), "each 1 kPa more takes 0.20 % of the air and 0.30 % of the power")
	r.Cost = &source.Cost{}
	f, _ = costFinding(&Boat{}, r)
	assert.NotContains(t, f.Text, "NaN")
}
