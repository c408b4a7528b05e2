package path_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
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

// A portable petrol set of 5.5 kW in an open field showed dB(C) - dB(A) of 3 at 7 m and 4 at 18.3 m (an
// owner's hobby meter); engine and can are taken, not its own. Within 5 dB of 3 to 4 asked.
const portable = `
boat: portable petrol set in a field
engines:
  set:
    {cycle: four-stroke, cylinders: 1, aspiration: natural, fuel: petrol, rated: {power: 6.3 kW, speed: 3600 rpm},
     running: {power: 3.5 kW, speed: 3600 rpm}, load: constant-speed, generator: {power: 5.5 kW, cooling: air}, in: outside, at: [0 m, 0 m, 0.4 m]}
listeners:
  near: {in: outside, at: [0 m, 7 m, 1.2 m]}
  far: {in: outside, at: [0 m, 18.3 m, 1.2 m]}
layouts:
  - name: small can
    exhausts:
      set:
        line:
          - pipe: {bore: 30 mm, length: 80 mm, in: outside}
          - chamber: {bore: 130 mm, rooms: [90 mm, 90 mm], inlet_bore: 28 mm, outlet_bore: 20 mm, wall: 1 mm, material: mild steel, in: outside}
        outlet: {at: [-0.2 m, 0 m, 0.4 m], pointing: aft, bore: 20 mm}
`

func TestPortableSetIsNotAllRumble(t *testing.T) {
	b, err := boatfile.Load("portable.yaml", []byte(portable))
	require.NoError(t, err)
	p := predict(t, b, b.Layouts[0])
	for _, h := range p.Listeners {
		rumble := h.Bands.DBC() - h.DBA()
		require.True(t, rumble > 3-5 && rumble < 4+5, "%.1f dB at %s", rumble, h.Listener.Name)
	}
}
