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

// Of engines that run, each of its own gives its cycles at running and at rated once, in whatever layouts it stands; what is
// worked out ahead is what is asked for later.
func TestCyclesAhead(t *testing.T) {
	main := Engine{Engine: source.Engine{Name: "main", Stroke: source.FourStroke, Cylinders: 4, Rated: source.Duty{Power: 60e3, Speed: 2600}}}
	set, stopped := main, main
	set.Name, set.Cylinders = "set", 3
	stopped.Name, stopped.Stopped = "stopped", true
	moved := main
	moved.At = Point{1, 2, 3} // the same engine at another place
	layouts := []*Layout{{Engines: []Engine{main, stopped}}, {Engines: []Engine{moved, set}}}
	work := CyclesAhead(layouts)
	assert.Len(t, work, 4)
	assert.Empty(t, CyclesAhead(nil))
	duty, _ := set.RunningDuty()
	want, err := set.BackPressureCost(duty, costAt)
	assert.NoError(t, err)
	for _, f := range work {
		f()
	}
	got, ok := BackPressureCost(set.Engine, duty, costAt)
	assert.True(t, ok)
	assert.Equal(t, want, got)
}
