package silencer_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
)

func branches(list ...[]silencer.Element) *silencer.Line {
	return &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.1, Length: 0.5},
		&silencer.Parallel{Branches: list}, &silencer.Pipe{Bore: 0.1, Length: 0.5}}, Outlet: silencer.Outlet{Present: true, Bore: 0.1}}
}

func tube(bore, length float64) []silencer.Element {
	return []silencer.Element{&silencer.Pipe{Bore: bore, Length: length}}
}

// Two equal branches share the flow and lose as much as one branch at half the flow, three lose less.
func TestEqualBranches(t *testing.T) {
	one := &silencer.Line{Elements: tube(0.07, 1)}
	f := bench(343, 1.204, 0.05)
	a, err := one.March(f, silencer.Options{})
	require.NoError(t, err)
	f.MassFlow = 0.1
	b, err := branches(tube(0.07, 1), tube(0.07, 1)).March(f, silencer.Options{})
	require.NoError(t, err)
	c, err := branches(tube(0.07, 1), tube(0.07, 1), tube(0.07, 1)).March(f, silencer.Options{})
	require.NoError(t, err)
	assert.InDelta(t, a.Rows[0].PressureLoss, b.Rows[2].PressureLoss, 1e-4*a.Rows[0].PressureLoss) // 1 is the step at the fork
	assert.Greater(t, b.Rows[2].PressureLoss, c.Rows[2].PressureLoss)
	assert.Less(t, math.Abs(b.EnergyResidual), 1e-6)
}

// A branch of the pipe's own bore and next to no flow area beside it is nearly the pipe itself; unequal
// branches settle, hot, and close their heat balance.
func TestUnequalBranches(t *testing.T) {
	l := branches(tube(0.08, 1), []silencer.Element{&silencer.Pipe{Bore: 0.06, Length: 0.7},
		&silencer.Chamber{Bore: 0.2, Rooms: []float64{0.3}, InletBore: 0.06, OutletBore: 0.06}})
	m, err := l.March(linetest.Exhaust(0.15, 450), silencer.Options{})
	require.NoError(t, err)
	sum := 0.0
	for _, r := range m.Rows {
		sum += r.PressureLoss
	}
	assert.InDelta(t, m.BackPressure, sum, 1e-6)
	assert.Less(t, math.Abs(m.EnergyResidual), 1e-6)
	a, err := l.Acoustics(linetest.Exhaust(0.15, 450), silencer.Options{Ceiling: true})
	require.NoError(t, err)
	for _, v := range a.InsertionLoss {
		assert.False(t, math.IsNaN(v))
	}
}

// Two branches of different length cancel where their difference is half a wave (Herschel 1833): equal
// total area, lossless, the loss there is far above that beside it.
func TestInterferenceOfBranches(t *testing.T) {
	half := 0.1 / math.Sqrt2
	l := branches(tube(half, 0.5), tube(half, 0.5+0.343))
	hz := grid(100, 900, 5)
	c, err := l.Curve(still, plain, hz)
	require.NoError(t, err)
	best, at := 0.0, 0.0
	for i, v := range c.TransmissionLoss {
		if v > best && math.Abs(hz[i]-500) < 100 {
			best, at = v, hz[i]
		}
	}
	assert.Greater(t, best, 20.0)
	assert.InDelta(t, 500, at, 80)
}

func TestRefusesWhatCannotBe(t *testing.T) {
	for name, l := range map[string]*silencer.Line{
		"empty":            {},
		"no bore":          {Elements: []silencer.Element{&silencer.AntiSiphon{}}},
		"negative":         {Elements: []silencer.Element{&silencer.Pipe{Bore: 0.1, Length: -1}}},
		"not a number":     {Elements: []silencer.Element{&silencer.Pipe{Bore: math.NaN(), Length: 1}}},
		"larger than hull": {Elements: []silencer.Element{&silencer.Chamber{Bore: 0.1, Rooms: []float64{0.3}, InletBore: 0.2, OutletBore: 0.05}}},
		"no branch":        {Elements: []silencer.Element{&silencer.Parallel{}}},
		"no porosity":      {Elements: []silencer.Element{&silencer.Perforated{Perforate: silencer.Perforate{Bore: 0.05, ChamberBore: 0.1, Length: 1}}}},
		"choked":           {Elements: []silencer.Element{&silencer.Pipe{Bore: 0.002, Length: 1}}},
		"injection twice": {Elements: []silencer.Element{&silencer.Pipe{Bore: 0.1, Length: 1}, &silencer.WaterInjection{Flow: 1e-3, Temperature: 300},
			&silencer.WaterInjection{Flow: 1e-3, Temperature: 300}}},
	} {
		_, err := l.March(linetest.Exhaust(0.2, 400), silencer.Options{})
		assert.Error(t, err, name)
		_, err = l.Curve(linetest.Exhaust(0.2, 400), silencer.Options{}, []float64{100})
		assert.Error(t, err, name)
	}
	_, err := branches(tube(0.08, 1)).Curve(still, silencer.Options{Method: "magic"}, []float64{100})
	assert.ErrorContains(t, err, "modes or plane")
	_, err = branches(tube(0.08, 1)).Curve(still, silencer.Options{}, []float64{0})
	assert.Error(t, err)
}
