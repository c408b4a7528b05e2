package draws

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws/drawstest"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// A doubt that is mixed of shared causes moves with their signs: two of 2 dB with weights 0.6, 0.8 and 0.6, -0.8 keep
// 2 dB each and have a covariance of (0.36 - 0.64) 4 dB2; a back pressure likewise.
func TestMixedDoubtsKeepTheirSigns(t *testing.T) {
	mix := func(b float64) []silencer.Mixed {
		return []silencer.Mixed{{Key: "a", Weight: 0.6}, {Key: "b", Weight: b}}
	}
	layout := func(name string, b float64) path.Prediction {
		h := path.Heard{Listener: path.Listener{Name: "helm"}, Routes: []path.Route{{Source: "main exhaust", Route: "outlet", Bands: drawstest.ExhaustBands,
			Steps: []path.Step{{Name: "line", Bands: drawstest.ExhaustBands, Uncertain: []path.Uncertain{{Term: "element model", Key: "chamber", Mix: mix(b), SD: spectrum.Fill(2)}}}}}}}
		drawstest.Finish(&h)
		x := drawstest.Exhaust(4000)
		x.PressureTerms = []path.PressureTerm{{Term: "element model", Key: "loss", Mix: mix(b), SD: 0.2}}
		return path.Prediction{Layout: &path.Layout{Name: name}, Listeners: []path.Heard{h}, Exhausts: []path.ExhaustResult{x}}
	}
	m, err := NewModel([]path.Prediction{layout("one", 0.8), layout("two", -0.8)})
	require.NoError(t, err)
	require.Len(t, m.Terms, 2)
	g := func(l int) []float64 { return m.Layouts[l].Listeners[0].Gradient(make([]float64, 2), spectrum.A, 2) }
	p := func(l int) []float64 { return m.Layouts[l].Exhausts[0].Gradient(2) }
	dot := func(a, b []float64) float64 { return a[0]*b[0] + a[1]*b[1] }
	assert.InDelta(t, 4, dot(g(0), g(0)), 1e-9)
	assert.InDelta(t, 4, dot(g(1), g(1)), 1e-9)
	assert.InDelta(t, -1.12, dot(g(0), g(1)), 1e-9)
	assert.InDelta(t, -0.28*0.04, dot(p(0), p(1)), 1e-9)
	rows := m.Matters(Belief{}, "one", "helm")
	require.Len(t, rows, 1)
	assert.InDelta(t, 2, rows[0].SD, 1e-9)
	assert.Equal(t, "chamber", rows[0].Key)
	assert.InDelta(t, 1, rows[0].Share, 1e-9)
}
