package path_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// The reduced form gives the same levels as the prediction it was taken from.
func TestNetworkEqualsPrediction(t *testing.T) {
	b := demo(t, "dry-stack")
	p := predict(t, b, b.Layouts[0])
	n := path.NewNetwork(&p)
	got := n.Levels(n.Powers(&p), make([]spectrum.Bands, len(p.Listeners)))
	for i, h := range p.Listeners {
		for k := range h.Bands {
			require.InDelta(t, h.Bands[k], got[i][k], 1e-9)
		}
	}
}

// BenchmarkNetwork evaluates a layout with 4 listeners, 3 engines and 30 routes, the line's curves given.
func BenchmarkNetwork(b *testing.B) {
	p := path.Prediction{}
	for ear := range 4 {
		h := path.Heard{}
		for r := range 30 {
			first := path.Step{Name: "sound power", Bands: spectrum.Fill(100 + float64(r%3))}
			h.Routes = append(h.Routes, path.Route{Source: fmt.Sprint("engine ", r%3), Steps: []path.Step{first},
				Bands: first.Bands.Shift(-30 - float64(ear+r))})
		}
		p.Listeners = append(p.Listeners, h)
	}
	n := path.NewNetwork(&p)
	powers, out := n.Powers(&p), make([]spectrum.Bands, 4)
	b.ReportAllocs()
	for b.Loop() {
		n.Levels(powers, out)
	}
}
