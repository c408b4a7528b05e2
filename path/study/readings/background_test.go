package readings

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws/drawstest"
	"hushwake/source/spectrum"
)

// A reading that is corrected for its own background is compared with what the engines alone bring; one that is not holds
// the background as the prediction does.
func TestReadingsAndTheBackground(t *testing.T) {
	all := drawstest.Boat(1, 0)
	h := &all[0].Listeners[0]
	engines := h.Bands.Plus(spectrum.A).Total()
	h.Routes = append(h.Routes, path.Route{Source: "background", Way: path.ByBackground, Route: "sea", Bands: h.Bands.Minus(spectrum.Fill(6)), AWeight: spectrum.A,
		Steps: []path.Step{{Bands: h.Bands.Minus(spectrum.Fill(6)), Uncertain: []path.Uncertain{{Term: "background", Key: "background/helm", SD: spectrum.Fill(2)}}}}})
	m := model(t, all)
	sea := engines - 6
	total := spectrum.Sum(engines, sea)
	r := drawstest.HeardAt(1, all[0].Layout.Name, h.Listener.Name, total, 2, "phone")
	c := calibrated(t, m, r)
	require.InDelta(t, total, *c.Residuals[0].Predicted, 0.01)
	r.Background = &sea
	c = calibrated(t, m, r)
	require.InDelta(t, engines, *c.Residuals[0].Predicted, 0.01)
	require.InDelta(t, engines, *c.Residuals[0].Measured, 0.01)
}
