package silencer_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/source/said"
)

// stack is a bare pipe of a length with a silencer behind it.
func stack(bare float64, more ...silencer.Element) *silencer.Line {
	return &silencer.Line{Outlet: silencer.Outlet{Present: true, Bore: 0.075}, Elements: append([]silencer.Element{
		&silencer.Pipe{Bore: 0.075, Length: bare}}, more...)}
}

// pulsing is an exhaust whose firing order of 60 Hz swings by 1.6 times the mean flow.
func pulsing(swing float64) silencer.Feed {
	f := linetest.Exhaust(0.05, 480)
	f.Firing, f.Swing = 60, swing
	return f
}

// steepened is the doubt of steepening at 1 kHz and the warning of a line.
func steepened(t *testing.T, l *silencer.Line, f silencer.Feed) (sd [9]float64, warning string) {
	t.Helper()
	a, err := l.Acoustics(f, silencer.Options{Method: "plane"})
	require.NoError(t, err)
	for _, d := range a.Doubts {
		if d.Term == "steepening" {
			require.Empty(t, d.Key, "layouts are keyed apart")
			sd = d.SD
		}
	}
	for _, w := range a.Warnings {
		if strings.Contains(w, "pulses of") {
			warning = w
		}
	}
	return sd, warning
}

// A long bare stack with strong pulses is warned of, with pressure and length; its higher orders are in doubt.
func TestALongBareStackIsWarnedOf(t *testing.T) {
	room := &silencer.Chamber{Bore: 0.25, Rooms: []float64{0.5}, InletBore: 0.075, OutletBore: 0.075}
	sd, warning := steepened(t, stack(7, room), pulsing(1.6))
	require.Contains(t, said.Plain(warning), "kPa in 7.0 m of bare pipe")
	require.Greater(t, sd[5], 1.0)
	require.Zero(t, sd[1], "63 Hz lies below four times firing")
	require.Less(t, sd[3], sd[4], "250 Hz only in part")
	near, none := steepened(t, stack(0.8, room, &silencer.Pipe{Bore: 0.075, Length: 6.2}), pulsing(1.6))
	require.Zero(t, near, "a silencer near the engine ends it")
	require.Empty(t, none)
	wet, none := steepened(t, stack(0.8, &silencer.WaterInjection{Flow: 3e-4, Temperature: 310}, &silencer.Hose{Bore: 0.075, Length: 6}), pulsing(1.6))
	require.Zero(t, wet)
	require.Empty(t, none)
}

// The doubt grows with length and swing, holds at 3 dB where the front stands upright, and is none on a bench.
func TestSteepeningGrowsWithLengthAndSwing(t *testing.T) {
	last := 0.0
	for _, m := range []float64{1, 3, 6, 12, 200} {
		sd, _ := steepened(t, stack(m), pulsing(1.6))
		require.GreaterOrEqual(t, sd[6], last)
		last = sd[6]
	}
	require.InDelta(t, 3, last, 1e-9)
	last = 0
	for _, s := range []float64{0, 0.3, 0.99, 1.01, 1.5, 1.9, 2.5} {
		sd, _ := steepened(t, stack(9), pulsing(s))
		require.GreaterOrEqual(t, sd[6], last, "swing %g", s)
		last = sd[6]
	}
	before, _ := steepened(t, stack(9), pulsing(0.999))
	after, _ := steepened(t, stack(9), pulsing(1.001))
	require.InDelta(t, before[6], after[6], 0.02, "pulses that just touch are one wave")
	bench, _ := steepened(t, stack(40), pulsing(0))
	require.Zero(t, bench)
}

// The height by the mean flow: pulses that last d of the interval, sin2, hold the mean flow between them, and their first
// order, added up numerically, is the swing that they were made of.
func TestPulsesHoldTheMeanFlow(t *testing.T) {
	f, mean := pulsing(1.6), 0.0
	_, warning := steepened(t, stack(9), f)
	var high float64
	_, err := fmt.Sscanf(said.Plain(warning), "pulses of about %f kPa", &high)
	require.NoError(t, err)
	d, sum, first := 0.0, 0.0, 0.0
	for d = 0.1; d < 1; d += 1e-4 { // by its own definition
		sum, first = 0, 0
		for i := range 1000 {
			if x := (float64(i) + 0.5) / 1000; x < d {
				q := math.Pow(math.Sin(math.Pi*x/d), 2)
				sum, first = sum+q, first+2*q*math.Cos(2*math.Pi*(x-d/2))
			}
		}
		if first/sum <= 1.6 {
			break
		}
	}
	m, err := stack(9).March(f, silencer.Options{})
	require.NoError(t, err)
	density := 101325 / (287 * m.InletTemperature)
	mean = float64(f.MassFlow) / (density * math.Pi / 4 * 0.075 * 0.075)
	c := math.Sqrt(1.35 * 287 * m.InletTemperature)
	require.InEpsilon(t, density*c*2*mean/d/1e3, high, 0.04, "gas of the hand reckoning and the printed figure are rounded")
}

// The doubt begins at 0.2 of the shock distance and is 3 dB at the whole of it, the warning at 0.4: where it first comes the doubt
// is 0.75 dB. Four times firing is 240 Hz: the octave of 250 Hz (177 to 354) holds 0.56 of its width above it.
func TestWhereSteepeningBegins(t *testing.T) {
	begun, warned := 0.0, 0.0
	for m := 0.2; warned == 0 && m < 40; m += 0.02 {
		sd, warning := steepened(t, stack(m), pulsing(1.6))
		if sd[5] > 0 && begun == 0 {
			begun = m
		}
		if warning != "" {
			warned = m
			require.InDelta(t, 0.75, sd[5], 0.05)
			require.InDelta(t, math.Log2(353.6/240), sd[3]/sd[5], 0.01)
		}
	}
	require.InEpsilon(t, 2, warned/begun, 0.03)
	// what swings more than a tenth of the interval lets through is that
	sharp, _ := steepened(t, stack(0.5), pulsing(1.99))
	sharper, _ := steepened(t, stack(0.5), pulsing(2.5))
	require.Equal(t, sharp, sharper)
	require.Positive(t, sharp[5])
}

// A part that spreads over four times the area ends the bare pipe, a narrower one doesn't.
func TestWhatEndsTheBarePipe(t *testing.T) {
	room := func(bore float64) [9]float64 {
		sd, _ := steepened(t, stack(3, &silencer.Chamber{Bore: bore, Rooms: []float64{0.3}, InletBore: 0.075, OutletBore: 0.075}, &silencer.Pipe{Bore: 0.075, Length: 5}), pulsing(1.6))
		return sd
	}
	require.Greater(t, room(0.149)[5], room(0.151)[5]+0.5)
}
