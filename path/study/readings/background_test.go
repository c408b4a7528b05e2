package readings

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/draws/drawstest"
	"hushwake/source/spectrum"
)

// A reading that is corrected for its own background is compared with what the engines alone bring; one that is not holds
// the background as the prediction does.
func TestReadingsAndTheBackground(t *testing.T) {
	all := drawstest.Boat(1, 0)
	h := &all[0].Listeners[0]
	level := func() float64 {
		s, err := model(t, all).MonteCarlo(draws.Options{})
		require.NoError(t, err)
		return s.Layouts[0].Listeners[0].Level
	}
	engines := level()
	h.Routes = append(h.Routes, path.Route{Source: "background", Way: path.ByBackground, Route: "sea", Bands: h.Bands.Minus(spectrum.Fill(6)), AWeight: spectrum.A,
		Steps: []path.Step{{Bands: h.Bands.Minus(spectrum.Fill(6)), Uncertain: []path.Uncertain{{Term: "background", Key: "background/helm", SD: spectrum.Fill(2)}}}}})
	m, total, sea := model(t, all), level(), engines-6
	require.Greater(t, total, engines+0.5)
	r := drawstest.HeardAt(1, all[0].Layout.Name, h.Listener.Name, total, 2, "phone")
	c := calibrated(t, m, r)
	require.InDelta(t, total, *c.Residuals[0].Predicted, 0.05)
	r.Background = &sea
	c = calibrated(t, m, r)
	require.InDelta(t, engines, *c.Residuals[0].Predicted, 0.05)
	require.InDelta(t, spectrum.Level(spectrum.Power(total)-spectrum.Power(sea)), *c.Residuals[0].Measured, 0.01)
}

func TestBackground(t *testing.T) {
	// 83 over 80 dB: the rest is 10 lg(10^8.3 - 10^8.0) = 79.98 dB.
	b := 80.0
	level, factor, reason := background(83, &b)
	require.Empty(t, reason)
	require.InDelta(t, 79.98, level, 0.01)
	require.InDelta(t, 2.005, factor, 0.01)
	_, _, reason = background(82.9, &b)
	require.Contains(t, reason, "background")
	level, factor, _ = background(90.1, &b)
	require.Equal(t, 90.1, level)
	require.Equal(t, 1.0, factor)
	m := model(t, drawstest.Boat(1, 0))
	r := drawstest.HeardAt(1, "layout 1", "helm", 82, 2, "phone")
	r.Background = &b
	c := calibrated(t, m, r)
	require.False(t, c.Residuals[0].Used)
	require.Contains(t, c.Residuals[0].Reason, "over the background")
}
