package silencer_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
)

var limitSaid = regexp.MustCompile(`plane waves hold to about (\d+) Hz, within 1 dB \(([^)]*)\)`)

// The plane form says how far it holds, and up to there it lies within 1 dB of the solution by modes, for centred
// parts of 150 mm of many proportions. (Before, it claimed the first radial mode at 2 789 Hz for all of them, and lay
// 52 dB off at 425 Hz where a tube is perforated over part of its length, at the resonance of the ring beside the
// holes.) The limit is no excuse either: where it says 1 dB at 0.7 of the mode, 3 dB are passed before that mode.
func TestThePlaneFormHoldsAsFarAsItSays(t *testing.T) {
	cut := 3.8317 * 343 / (math.Pi * 0.15)
	chamber := func(in, out float64, rooms ...float64) silencer.Element {
		c := &silencer.Chamber{Bore: 0.15, Rooms: rooms, InletBore: 0.05, OutletBore: 0.05, TubeWall: 1e-3, InletExtension: in, OutletExtension: out, Baffle: 3e-3}
		for range len(rooms) - 1 {
			c.JoinedBy = append(c.JoinedBy, []silencer.Tube{{Bore: 0.05}})
		}
		return c
	}
	round := func(from, to float64) silencer.Perforate {
		return silencer.Perforate{Bore: 0.05, ChamberBore: 0.15, Length: 0.401, From: from, To: to, Porosity: 0.27, Hole: 3e-3, TubeWall: 2e-3, Impedance: silencer.Still}
	}
	sheet := chamber(0, 0, 0.2, 0.2).(*silencer.Chamber)
	sheet.Baffle = 0
	for name, c := range map[string]struct {
		e    silencer.Element
		said string
	}{
		"long":             {chamber(0, 0, 0.4), "do not travel"},
		"half a bore":      {chamber(0, 0, 0.075), "nearer to each other"},
		"a third of it":    {chamber(0, 0, 0.05), "nearer to each other"},
		"extended":         {chamber(0.2, 0.1, 0.5), "stands in"},
		"short extension":  {chamber(0.05, 0, 0.4), "stands in"},
		"nearly touching":  {chamber(0.2, 0.19, 0.4), "nearer to each other"},
		"two rooms":        {chamber(0, 0, 0.2, 0.2), "do not travel"},
		"hole in a sheet":  {sheet, "thin sheet"},
		"perforated":       {&silencer.Perforated{Perforate: round(0, 0)}, "do not travel"},
		"double tuned":     {&silencer.Perforated{Perforate: round(0.1875, 0.31375)}, "beside the holes"},
		"half perforated":  {&silencer.Perforated{Perforate: round(0, 0.2)}, "beside the holes"},
		"packed":           {&silencer.Packed{Perforate: round(0, 0), FlowResistivity: 10000}, "do not travel"},
		"plugged":          {&silencer.Plugged{Perforate: round(0, 0)}, "do not travel"},
		"plugged in part":  {&silencer.Plugged{Perforate: round(0.1, 0.3)}, "beside the holes"},
		"short perforated": {&silencer.Perforated{Perforate: round(0.02, 0.401)}, "beside the holes"},
	} {
		t.Run(name, func(t *testing.T) {
			l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.05, Length: 0.1}, c.e}}
			hz := grid(15, 0.98*cut, 10)
			plane, err := l.Curve(still, silencer.Options{Walls: "lossless", Method: "plane"}, hz)
			require.NoError(t, err)
			found := limitSaid.FindStringSubmatch(strings.Join(plane.Warnings, "\n"))
			require.NotNil(t, found, "%q", plane.Warnings)
			assert.Contains(t, found[2], c.said)
			limit, _ := strconv.ParseFloat(found[1], 64)
			assert.Greater(t, limit, 0.03*cut)
			passes := false
			for i, v := range tl(t, l, still, silencer.Options{Walls: "lossless", Method: "modes"}, hz...) {
				d := math.Abs(v - plane.TransmissionLoss[i])
				if passes = passes || d > 3; hz[i] <= limit && d > 1 {
					t.Errorf("%.1f dB at %.0f Hz, said to hold to %.0f Hz", d, hz[i], limit)
				}
			}
			assert.True(t, passes || c.said == "thin sheet", "it holds beyond %s Hz", found[1])
			below, err := l.Curve(still, silencer.Options{Method: "plane"}, []float64{limit - 2})
			require.NoError(t, err)
			assert.NotContains(t, fmt.Sprint(below.Warnings), "plane waves hold")
			modes, err := l.Curve(still, silencer.Options{Method: "modes"}, hz)
			require.NoError(t, err)
			assert.NotContains(t, fmt.Sprint(modes.Warnings), "plane waves")
		})
	}
}

// Ports off the axis pass on the first cross mode: three-dimensional finite elements pass 0.5 dB at 0.72 of it (derived).
func TestOffsetPortsHoldToSevenTenthsOfTheCrossMode(t *testing.T) {
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.05, Length: 0.1},
		&silencer.Chamber{Bore: 0.15, Rooms: []float64{0.4}, InletBore: 0.05, OutletBore: 0.05, InletOffset: 0.04}}}
	c, err := l.Curve(still, silencer.Options{}, []float64{1200})
	require.NoError(t, err)
	found := limitSaid.FindStringSubmatch(strings.Join(c.Warnings, "\n"))
	require.NotNil(t, found)
	limit, _ := strconv.ParseFloat(found[1], 64)
	assert.InDelta(t, 0.7*1.8412*343/(math.Pi*0.15), limit, 1)
}
