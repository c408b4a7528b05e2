package silencer_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/source/gas"
)

// The wave equation knows frequency over speed of sound alone: without losses and flow, gas in which sound is s times
// faster meets at f what the first gas meets at f/s. s is six steps of the grid that losses are taken on, so that both
// meet the same points of it.
func TestLineLossesScaleWithTheSpeedOfSound(t *testing.T) {
	s := math.Pow(10, 0.3*6/36)
	o := silencer.Options{Walls: "lossless", Method: "plane"}
	line := twelve()
	line.Outlet = silencer.Outlet{Present: true, Pointing: silencer.Direction{0, 0, 1}}
	var at, shifted []silencer.SourceLine
	for _, hz := range []float64{63, 97, 160, 251, 400} {
		at, shifted = append(at, silencer.SourceLine{Frequency: hz}), append(shifted, silencer.SourceLine{Frequency: hz / s})
	}
	slow, err := line.Solve(bench(343, 1.204, 0), o)
	require.NoError(t, err)
	fast, err := line.Solve(bench(343*s, 1.204, 0), o)
	require.NoError(t, err)
	assert.InDeltaSlice(t, slow.LineLosses(shifted), fast.LineLosses(at), 1e-6)
	assert.NotEqual(t, slow.LineLosses(at), fast.LineLosses(at))
}

// A line solved from its course is the line solved at once, and its own lines have the losses of its acoustics.
func TestCourseIsTheLine(t *testing.T) {
	line := twelve()
	line.Outlet = silencer.Outlet{Present: true, Pointing: silencer.Direction{0, 0, 1}}
	feed := bench(343, 1.204, 0.05)
	feed.Lines = []silencer.SourceLine{{Frequency: 90, Level: 100}, {Frequency: 180, Level: 95}}
	c, err := line.Course(feed, silencer.Options{})
	require.NoError(t, err)
	solved, err := c.Solve()
	require.NoError(t, err)
	whole, err := line.Acoustics(feed, silencer.Options{})
	require.NoError(t, err)
	assert.Equal(t, whole, solved.Acoustics())
	assert.Equal(t, whole.LineLoss, solved.LineLosses(feed.Lines))
	m, err := line.March(feed, silencer.Options{})
	require.NoError(t, err)
	assert.Equal(t, m, c.March())
	_, err = line.Course(feed, silencer.Options{Method: "guess"})
	assert.ErrorContains(t, err, "modes or plane")
}

// Exhaust that comes 15 % hotter in absolute temperature: marched anew, with its own walls, flow and heat loss, against
// the shift of frequencies by the root of 1.15. Tolerance set beforehand: 1 dB root mean square over the lines.
func TestHotterGasIsAShiftOfFrequencies(t *testing.T) {
	line := &silencer.Line{Outlet: silencer.Outlet{Present: true, Pointing: silencer.Direction{0, 0, 1}, Bore: 0.1}, Elements: []silencer.Element{
		&silencer.Pipe{Bore: 0.1, Length: 0.8}, &silencer.Chamber{Bore: 0.3, Rooms: []float64{0.5}, InletBore: 0.1, OutletBore: 0.1},
		&silencer.Pipe{Bore: 0.1, Length: 1.2}}}
	feed := silencer.Feed{Gas: gas.Gas{Kind: gas.Exhaust, AirFuelRatio: 40}, MassFlow: 0.08, Temperature: 600, Ambient: 293}
	hot := feed
	hot.Temperature *= 1.15
	var at, shifted []silencer.SourceLine
	for hz := 60.0; hz < 500; hz += 40 {
		at, shifted = append(at, silencer.SourceLine{Frequency: hz}), append(shifted, silencer.SourceLine{Frequency: hz / math.Sqrt(1.15)})
	}
	base, err := line.Solve(feed, silencer.Options{Method: "plane"})
	require.NoError(t, err)
	hotter, err := line.Solve(hot, silencer.Options{Method: "plane"})
	require.NoError(t, err)
	want, got, plain := hotter.LineLosses(at), base.LineLosses(shifted), base.LineLosses(at)
	shiftedOff, off := 0.0, 0.0
	for i := range want {
		shiftedOff += (got[i] - want[i]) * (got[i] - want[i]) / float64(len(want))
		off += (plain[i] - want[i]) * (plain[i] - want[i]) / float64(len(want))
	}
	assert.Less(t, math.Sqrt(shiftedOff), 1.0)
	assert.Greater(t, off, 4*shiftedOff, "not to shift is worse")
	t.Log(math.Sqrt(shiftedOff), math.Sqrt(off))
}

// Without the spread between source impedances the losses are the same to the bit, and nothing is said of the spread.
func TestMatchedAloneIsTheLine(t *testing.T) {
	line := twelve()
	line.Outlet = silencer.Outlet{Present: true, Pointing: silencer.Direction{0, 0, 1}}
	feed := bench(343, 1.204, 0.05)
	feed.Lines = []silencer.SourceLine{{Frequency: 90, Level: 100}, {Frequency: 180, Level: 95}}
	c, err := line.Course(feed, silencer.Options{Ceiling: true, Method: "plane"})
	require.NoError(t, err)
	whole, err := c.Solve()
	require.NoError(t, err)
	alone, err := c.SolveMatched()
	require.NoError(t, err)
	want, got := whole.Acoustics(), alone.Acoustics()
	assert.Equal(t, want.InsertionLoss, got.InsertionLoss)
	assert.Equal(t, want.BroadbandLoss, got.BroadbandLoss)
	assert.Equal(t, want.LineLoss, got.LineLoss)
	assert.NotZero(t, want.ImpedanceSD)
	assert.Zero(t, got.ImpedanceSD)
}
