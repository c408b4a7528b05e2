package silencer_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/silencer/wet"
	"hushwake/source/spectrum"
)

// What the walls give off falls along the line as the silencers take effect, lies below the level
// inside, and lagging never makes it more.
func TestShellsDeclineAlongTheLine(t *testing.T) {
	pipe := func() silencer.Element { return &silencer.Pipe{Bore: 0.1, Length: 1} }
	l := &silencer.Line{Elements: []silencer.Element{pipe(),
		&silencer.Chamber{Bore: 0.35, Rooms: []float64{0.6}, InletBore: 0.1, OutletBore: 0.1},
		pipe(), &silencer.AntiSiphon{},
		&silencer.Packed{Perforate: silencer.Perforate{Bore: 0.1, ChamberBore: 0.25, Length: 0.8, Porosity: 0.3, Hole: 3e-3, TubeWall: 1e-3}, FlowResistivity: 15000},
		pipe()}, Outlet: silencer.Outlet{Present: true, Bore: 0.1}}
	inside := spectrum.Fill(120)
	list := l.Shells(linetest.Exhaust(0.1, 400), silencer.Options{Ceiling: true}, inside)
	require.Len(t, list, 5) // the loop has no wall in the gas's way
	first, second, third := list[0].Bands, list[2].Bands, list[4].Bands
	for b := range first {
		assert.LessOrEqual(t, second[b], first[b]+1e-9)
		assert.LessOrEqual(t, third[b], second[b]+1e-9)
		assert.Less(t, first[b], 120.0)
	}
	assert.Greater(t, first.DBA()-third.DBA(), 10.0)
	l.Elements[1].Base().Lagging = silencer.Lagging{Thickness: 0.05, Material: "mineral wool"}
	lagged := l.Shells(linetest.Exhaust(0.1, 400), silencer.Options{Ceiling: true}, inside)
	assert.Less(t, lagged[1].Bands.DBA(), list[1].Bands.DBA())
	for _, s := range list {
		assert.NotEmpty(t, s.Formula)
		assert.NotEmpty(t, s.Source)
		assert.NotEmpty(t, s.Mark)
	}
	assert.Nil(t, (&silencer.Line{}).Shells(still, silencer.Options{}, inside))
}

// Self-noise grows by 50 lg of the velocity and no silencer before it takes it away.
func TestSelfNoiseFloor(t *testing.T) {
	l := linetest.DryLine(0.35, 0.05)
	a, err := l.Acoustics(bench(343, 1.204, 0.1), silencer.Options{})
	require.NoError(t, err)
	b, err := l.Acoustics(bench(343, 1.204, 0.2), silencer.Options{})
	require.NoError(t, err)
	assert.InDelta(t, 15.05, b.SelfNoise.DBA()-a.SelfNoise.DBA(), 1.0)
	longer := linetest.DryLine(0.35, 0.05)
	longer.Elements[1].(*silencer.Chamber).Rooms = []float64{3}
	c, err := longer.Acoustics(bench(343, 1.204, 0.1), silencer.Options{})
	require.NoError(t, err)
	assert.InDelta(t, a.SelfNoise.DBA(), c.SelfNoise.DBA(), 1e-6)
	none, err := l.Acoustics(still, silencer.Options{})
	require.NoError(t, err)
	assert.Equal(t, spectrum.Fill(spectrum.Silent), none.SelfNoise)
}

// Above the cut-on of a chamber a layout's loss is limited by its ceiling, a bench's is not.
func TestCeilingHoldsInLayoutsOnly(t *testing.T) {
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.05, Length: 0.3},
		&silencer.Chamber{Bore: 0.4, Rooms: []float64{0.5}, InletBore: 0.05, OutletBore: 0.05, InletOffset: 0.1}, &silencer.Pipe{Bore: 0.05, Length: 0.3}}}
	hz := grid(1000, 4000, 13)
	free, err := l.Curve(still, silencer.Options{Walls: "lossless"}, hz)
	require.NoError(t, err)
	held, err := l.Curve(still, silencer.Options{Ceiling: true, Walls: "lossless"}, hz)
	require.NoError(t, err)
	most := 0.0
	for i := range hz {
		assert.LessOrEqual(t, held.TransmissionLoss[i], 6.0+1e-6)
		most = max(most, free.TransmissionLoss[i])
	}
	assert.Greater(t, most, 15.0)
	assert.NotEmpty(t, held.Warnings)
	assert.NotEmpty(t, free.Warnings)
}

// A wide hose lets more through than a narrow one, a long one more than a short one; lined up with the estimate by
// hand for 4 m of 150 mm at 63 Hz, where stiffness rules: 33.9 dB at 30 MPa on the inner radius, so 39.2 at 60 MPa
// on the middle of the wall; a stiffness known within a factor of 2.5 only lets 8.5 dB more through (exp(2 0.92^2) = 5.4
// in energy, and the softest rings near), the rise over the octave 0.7: 30 dB.
func TestHoseWalls(t *testing.T) {
	at := func(bore, length float64) spectrum.Bands {
		l := &silencer.Line{Elements: []silencer.Element{&silencer.Hose{Bore: bore, Length: length}}, Outlet: silencer.Outlet{Present: true, Bore: bore}}
		return l.Shells(still, silencer.Options{}, spectrum.Fill(100))[0].Bands
	}
	assert.InDelta(t, 100-30, at(0.150, 4)[1], 0.6)
	assert.InDelta(t, 100-wet.Tube{Bore: 0.150, Wall: wet.HoseWall, Length: 4}.BreakOut()[2], at(0.150, 4)[2], 1e-9)
	assert.Less(t, at(0.040, 1)[3], at(0.100, 1)[3])
	assert.GreaterOrEqual(t, at(0.150, 4)[3], at(0.150, 1)[3])
	assert.GreaterOrEqual(t, at(0.150, 4)[3], at(0.100, 4)[3])
}
