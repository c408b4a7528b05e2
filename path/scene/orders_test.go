package scene

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// One order of 170 Hz alone reads A(170) = -12.57 dB under its level (IEC 61672-1:2013 annex E), not the -16.1 dB
// of the octave that it lies in; a step of the chain keeps its bands additive.
func TestOneOrderReadsItsOwnWeight(t *testing.T) {
	silent := spectrum.Fill(spectrum.Silent)
	level := silent
	level[2] = 120
	e := newEmitter("main exhaust", "outlet", path.Outside, path.Point{}, path.Step{Name: "source", Bands: level})
	e.engine, e.way = "main", path.ByOutlet
	e.tones = tones.New([]source.PipeOrder{{Order: 6, Frequency: 170, Level: 120}}, nil, silent, e.bands)
	r := trail{}.with("outlet", e.steps...).with("open air", path.Step{Name: "spreading", Bands: spectrum.Fill(-40)}).route(&e, nil)
	require.InDelta(t, -12.57, r.DBA()-80, 0.01)
	require.InDelta(t, 80, r.Bands[2], 1e-6)
	var sum spectrum.Bands
	for _, s := range r.Steps {
		sum = sum.Plus(s.Bands)
	}
	require.InDeltaSlice(t, r.Bands[:], sum[:], 1e-9)
	require.Equal(t, []string{"main exhaust", "main", "outlet", "outlet > open air"}, []string{r.Source, r.Engine, string(r.Way), r.Route})
	lines, broad := path.Heard{Routes: []path.Route{r}}.Lines()
	require.Len(t, lines, 1)
	require.InDelta(t, 80, lines[0].Level, 1e-6, "the order is known behind the way")
	require.Less(t, broad[2], spectrum.Silent/2, "and nothing beside it")
}

// A route brings an order by the gain at its own frequency: half way between 125 and 250 Hz, the mean of both in dB.
func TestARouteReadsGainAtAnOrdersFrequency(t *testing.T) {
	hz := 10 * 17.7827941
	e := emitter{tones: tones.New([]source.PipeOrder{{Frequency: hz, Level: 100}}, nil, spectrum.Fill(spectrum.Silent), spectrum.Bands{})}
	gain := spectrum.Bands{-5, -10, -20, -40, -40, -40, -40, -40, -60}
	require.InDelta(t, 70, trail{}.with("", path.Step{Bands: gain}).route(&e, nil).Bands[spectrum.BandOf(hz)], 1e-6)
}

// The sum of quiet routes moves as they do: a change of one cause by one deviation, up and down, moves it by what
// it says, to 0.3 dB in every band.
func TestQuietRoutesKeepTheirDoubts(t *testing.T) {
	doubt := func(key string, sd float64) path.Uncertain {
		return path.Uncertain{Term: "source level", Key: key, SD: spectrum.Fill(sd)}
	}
	quiet := func(level float64, all ...path.Uncertain) path.Route {
		return path.Route{Bands: spectrum.Fill(level), AWeight: spectrum.A, Steps: []path.Step{{Bands: spectrum.Fill(level), Uncertain: all}}}
	}
	routes := []path.Route{quiet(40, doubt("main", 5), doubt("wall", 3)), quiet(43, doubt("main", 5)), quiet(37, doubt("set", 4)), quiet(30, doubt("wall", 5))}
	m := minor(arrivals(routes))
	require.Len(t, m.Steps[0].Uncertain, 3)
	for _, u := range m.Steps[0].Uncertain {
		var moved [2]float64
		for k, sign := range []float64{1, -1} {
			for _, r := range routes {
				l := r.Bands[3]
				for _, v := range r.Steps[0].Uncertain {
					if v.Key == u.Key {
						l += sign * v.SD[3]
					}
				}
				moved[k] += spectrum.Power(l)
			}
		}
		require.InDelta(t, (spectrum.Level(moved[0])-spectrum.Level(moved[1]))/2, u.SD[3], 0.3, u.Key)
	}
	require.InDeltaSlice(t, spectrum.A[:], m.AWeight[:], 1e-9)
	require.Empty(t, m.Way)
	require.Empty(t, m.Engine)
}
