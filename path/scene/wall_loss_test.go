package scene

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/panel"
)

// The loss that routes and rooms use for a wall that stands partly open is the composite of panel, and its power is
// the sum over its parts of area times share.
func TestWallLossIsTheComposite(t *testing.T) {
	b := &path.Boat{Materials: panel.Default()}
	s := &scene{boat: b, layout: &path.Layout{}}
	for _, open := range []float64{0, 0.002, 0.4, 4} {
		p := &path.Partition{Between: [2]string{"a", "b"}, Area: 4, OpenArea: open, BuildUp: panel.BuildUp{{Material: "plywood", Thickness: 0.012},
			{Material: "foam", Thickness: 0.05}, {Material: "limp mat", Mass: 5}}}
		w := s.newWall(p)
		parts := []panel.Part{{Area: 4 - open, Loss: b.Materials.TransmissionLoss(p.BuildUp).Bands}, panel.Opening(open)}
		want := panel.Composite(parts...)
		for i := range want {
			require.InDelta(t, want[i], w.loss[i], 1e-9, "%g m2 open", open)
		}
	}
}
