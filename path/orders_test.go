package path

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/source"
	"hushwake/source/spectrum"
)

// One order of 170 Hz alone reads A(170) = -12.57 dB under its level (IEC 61672-1:2013 annex E), not the -16.1 dB
// of the octave that it lies in; a step of the chain keeps its bands additive.
func TestOneOrderReadsItsOwnWeight(t *testing.T) {
	silent := spectrum.Fill(spectrum.Silent)
	level := silent
	level[2] = 120
	e := newEmitter("main exhaust", "outlet", Outside, Point{}, Step{Name: "source", Bands: level})
	e.engine, e.way = "main", ByOutlet
	e.tones = newTones([]source.Order{{Order: 6, Frequency: 170, Level: 120}}, nil, silent, e.bands)
	r := trail{}.with("outlet", e.steps...).with("open air", Step{Name: "spreading", Bands: spectrum.Fill(-40)}).route(&e)
	require.InDelta(t, -12.57, r.DBA()-80, 0.01)
	require.InDelta(t, 80, r.Bands[2], 1e-6)
	var sum spectrum.Bands
	for _, s := range r.Steps {
		sum = sum.Plus(s.Bands)
	}
	require.InDeltaSlice(t, r.Bands[:], sum[:], 1e-9)
	require.Equal(t, Route{Source: "main exhaust", Engine: "main", Way: ByOutlet, Route: "outlet > open air",
		Bands: r.Bands, AWeight: r.AWeight, Steps: r.Steps, tones: e.tones, behind: spectrum.Fill(-40)}, r)
}

// The gain of a way is read at the frequency of the order: linear in dB over the logarithm of frequency between
// octave centres, flat beyond the last; at a centre it is the octave's, so that nothing changes there.
func TestGainAtAnOrdersFrequency(t *testing.T) {
	gain := spectrum.Bands{-5, -10, -20, -40, -40, -40, -40, -40, -60}
	for hz, want := range map[float64]float64{
		spectrum.Exact[2]: -20, spectrum.Exact[1]: -10, 10 * 8.912509381: -15, 10 * 17.7827941: -30, // half way at the edge of octaves
		23: -5, 11000: -60,
	} {
		order := newTones([]source.Order{{Frequency: hz, Level: 100}}, []float64{3}, spectrum.Fill(spectrum.Silent), spectrum.Bands{})
		bands, weight := order.heard(gain)
		b := spectrum.BandOf(hz)
		require.InDelta(t, 97+want, bands[b], 1e-6, "%g Hz", hz)
		e := emitter{tones: order}
		require.InDelta(t, 97+want, trail{}.with("", Step{Bands: gain}).route(&e).Bands[b], 1e-6, "the route at %g Hz", hz)
		require.InDelta(t, spectrum.AAt(hz), weight[b], 1e-6, "%g Hz", hz)
		require.InDelta(t, spectrum.A[(b+4)%spectrum.N], weight[(b+4)%spectrum.N], 1e-9, "where no order lies")
	}
	require.Nil(t, newTones([]source.Order{{Frequency: 12, Level: 100}}, nil, spectrum.Bands{}, spectrum.Bands{}), "under the octaves there is none")
}

// The sum of quiet routes moves as they do: a change of one cause by one deviation, up and down, moves it by what
// it says, to 0.3 dB in every band.
func TestQuietRoutesKeepTheirDoubts(t *testing.T) {
	doubt := func(key string, sd float64) Uncertain {
		return Uncertain{Term: "source level", Key: key, SD: spectrum.Fill(sd)}
	}
	quiet := func(level float64, all ...Uncertain) Route {
		return Route{Bands: spectrum.Fill(level), AWeight: spectrum.A, Steps: []Step{{Bands: spectrum.Fill(level), Uncertain: all}}}
	}
	routes := []Route{quiet(40, doubt("main", 5), doubt("wall", 3)), quiet(43, doubt("main", 5)), quiet(37, doubt("set", 4)), quiet(30, doubt("wall", 5))}
	m := minor(routes, []int{0, 1, 2, 3})
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
