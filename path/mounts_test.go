package path

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path/structure"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// A mass on springs: what gives by 2.5 mm and what has the stiffness for it are one, stiffer under vibration than at rest.
func TestNaturalFrequencyOfMounts(t *testing.T) {
	static := math.Sqrt(9.81/2.5e-3) / (2 * math.Pi)
	given := Mounts{Deflection: 2.5e-3}.NaturalFrequency(0)
	assert.InDelta(t, static*math.Sqrt(structure.RubberStiffening), given, 0.01)
	each := 400.0 / 4 * 9.81 / 2.5e-3
	assert.InDelta(t, given, Mounts{Stiffness: each}.NaturalFrequency(400), 0.01, "four mounts where nobody counted")
	assert.InDelta(t, given*math.Sqrt(1.5), Mounts{Stiffness: each, Count: 6}.NaturalFrequency(400), 0.01)
	assert.Equal(t, 9.0, Mounts{Frequency: 9, Deflection: 1}.NaturalFrequency(400), "what is stated comes first")
	assert.Zero(t, Mounts{}.NaturalFrequency(400))
	assert.Zero(t, Mounts{Stiffness: 1e5}.NaturalFrequency(0))
}

// A mass by rated power rises with it, without a step at 150 kW; a stated one stays.
func TestMassByPower(t *testing.T) {
	kg := func(p float64) float64 {
		return (&Engine{Engine: source.Engine{Stroke: source.FourStroke, Rated: source.Duty{Power: p}}}).weighs()
	}
	assert.InDelta(t, 1.15*8*50, kg(50e3), 1e-9)
	assert.InDelta(t, 1.15*(8*150+5*100), kg(250e3), 1e-9)
	assert.InDelta(t, kg(150e3), kg(150.001e3), 0.01)
	e := &Engine{Engine: source.Engine{Rated: source.Duty{Power: 50e3}}, Standing: Standing{Mass: 333}}
	assert.Equal(t, 333.0, e.weighs())
}

// A leg without names is for what drives a propeller and is not stopped; a set keeps its speed.
func TestEnginesOnALeg(t *testing.T) {
	duty := source.Duty{Speed: 2000, Power: 80e3}
	main := &Engine{Engine: source.Engine{Name: "main", Rated: duty, Running: duty}}
	set := &Engine{Engine: source.Engine{Name: "set", Rated: duty, Running: duty, Generator: &source.Generator{}}}
	assert.True(t, main.On(Leg{}))
	assert.False(t, set.On(Leg{}))
	assert.True(t, set.On(Leg{Engines: []string{"set"}}))
	main.Stopped = true
	assert.False(t, main.On(Leg{}))
	assert.True(t, main.On(Leg{Engines: []string{"main"}}))
	assert.Equal(t, 1000.0, main.DutyOn(Leg{Speed: 1000}).Speed)
	assert.Equal(t, 2000.0, set.DutyOn(Leg{Speed: 1000}).Speed)
	assert.Equal(t, 80e3, set.DutyOn(Leg{Power: 1e6}).Power, "no more than rated")

	level := spectrum.Fill(90)
	main.CasingLevel = &level
	main.RunAt(duty)
	assert.Zero(t, main.MeasuredAt)
	main.RunAt(source.Duty{Speed: 1000, Power: 10e3})
	main.RunAt(source.Duty{Speed: 1500, Power: 20e3})
	assert.Equal(t, duty, main.MeasuredAt, "what was measured is moved from where it was, however often the duty is changed")
	assert.False(t, main.Stopped)
}

// Shaft and blades turn by the gear; without one nobody knows.
func TestLinesOfAPropeller(t *testing.T) {
	shaft, blade := Propeller{Blades: 3, Gear: 2}.Lines(2400)
	assert.Equal(t, 20.0, shaft)
	assert.Equal(t, 60.0, blade)
	shaft, _ = Propeller{Blades: 3}.Lines(2400)
	assert.Zero(t, shaft)
}
