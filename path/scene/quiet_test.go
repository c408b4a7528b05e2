package scene

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Quiet routes summed up move as they would one by one: a doubt that two lines mix of shared causes in ways of their
// own stays two doubts, one that they have in common adds up.
func TestQuietRoutesKeepTheirMixes(t *testing.T) {
	route := func(mix []silencer.Mixed) path.Route {
		return path.Route{Bands: spectrum.Fill(40), AWeight: spectrum.A, Steps: []path.Step{{Uncertain: []path.Uncertain{
			{Term: "element model", Key: "chamber", Mix: mix, SD: spectrum.Fill(2)}, {Term: "room", Key: "room/cabin", SD: spectrum.Fill(3)}}}}}
	}
	up, down := []silencer.Mixed{{Key: "a", Weight: 0.6}, {Key: "b", Weight: 0.8}}, []silencer.Mixed{{Key: "a", Weight: -0.6}, {Key: "b", Weight: 0.8}}
	sum := minor(arrivals([]path.Route{route(up), route(down), route(up)}))
	require.InDelta(t, 40+10*math.Log10(3), sum.Bands[0], 1e-9)
	moved := map[string]float64{}
	for _, u := range sum.Steps[0].Uncertain {
		if u.Mix == nil {
			moved[u.Key] += u.SD[0]
		}
		for _, c := range u.Mix {
			moved[c.Key] += c.Weight * u.SD[0]
		}
	}
	require.InDelta(t, 3, moved["room/cabin"], 1e-12)
	require.InDelta(t, 0.4, moved["a"], 1e-12)
	require.InDelta(t, 1.6, moved["b"], 1e-12)
	require.Len(t, sum.Steps[0].Uncertain, 3)
}

// arrivals are what routes bring.
func arrivals(routes []path.Route) (all []*arrival) {
	for i := range routes {
		a := arrivalOf(&routes[i])
		all = append(all, &a)
	}
	return all
}
