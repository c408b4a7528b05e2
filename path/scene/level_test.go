package scene_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// The sound power that opens a route is the source's: its terms add up to it, and its doubt stands by octave with the
// share of the source in what leaves the outlet; the rest is the flow noise's.
func TestFirstStepIsTheSource(t *testing.T) {
	b := demo(t, "three-quotes")
	p := predict(t, b, b.Layouts[1])
	seen := map[string]bool{}
	var routes []path.Route
	for _, h := range p.Listeners {
		routes = append(routes, h.Routes...)
	}
	for _, r := range routes {
		first := r.Steps[0]
		if len(first.Terms) == 0 {
			continue
		}
		seen[first.Name] = true
		var sum spectrum.Bands
		for _, term := range first.Terms {
			sum = sum.Plus(term.Bands)
		}
		require.InDeltaSlice(t, first.Bands[:], sum[:], 1e-9, first.Name)
		if strings.HasPrefix(first.Name, "exhaust") {
			x := p.Exhausts[0]
			for i, v := range x.Unsilenced.Minus(x.Acoustics.InsertionLoss).Minus(x.OutletPower) {
				share := spectrum.Power(v)
				require.InDelta(t, x.Source.Exhaust.SD[i]*share, first.Uncertain[0].SD[i], 1e-12)
				require.InDelta(t, 1, share+spectrum.Power(x.Acoustics.SelfNoise[i]-x.OutletPower[i]), 1e-9)
			}
			require.Contains(t, first.Formula, "what the gas flow can hold")
		}
	}
	require.True(t, seen["exhaust sound power, unsilenced"] && seen["casing sound power"], "%v", seen)
	// what the line is fed with is what was held
	x := p.Exhausts[0]
	feed := path.Feed(x.Source, b.Air)
	energy := feed.Broadband
	for _, l := range feed.Lines {
		k := spectrum.BandOf(l.Frequency)
		energy[k] = spectrum.Sum(energy[k], l.Level)
	}
	require.InDeltaSlice(t, x.Unsilenced[:], energy[:], 1e-6)
}

// A demo's exhaust fires at 170 Hz: at 31.5 and 63 Hz nothing is left but its weak orders, about 99 dB.
func TestNoRumbleBelowFiring(t *testing.T) {
	b := demo(t, "dry-stack")
	x := predict(t, b, b.Layouts[0]).Exhausts[0]
	for k := range 2 {
		require.InDelta(t, 99, x.Unsilenced[k], 4)
		require.Less(t, x.Unsilenced[k], x.Unsilenced.Total()-30)
	}
}
