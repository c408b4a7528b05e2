package scene_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// No listener is silent: each has one background, as stated or the usual one, which hangs on no engine.
func TestEveryListenerHasABackground(t *testing.T) {
	for _, b := range houseBoats(t) {
		p := quick(t, b, b.Layouts[0])
		for _, h := range p.Listeners {
			found := 0
			for _, r := range h.Routes {
				if r.Way != path.ByBackground {
					continue
				}
				found++
				require.Empty(t, r.Engine)
				for _, u := range r.Steps[0].Uncertain {
					require.Equal(t, "background/"+h.Listener.Name, u.Key)
					require.Equal(t, map[bool]float64{true: 8, false: path.BackgroundSD}[h.Listener.Background.SD == 0], u.SD[0])
				}
				if h.Listener.Background.SD == 0 {
					require.InDelta(t, map[bool]float64{true: 35, false: 30}[h.Listener.In == path.Outside], r.DBA(), 1e-9)
				}
			}
			require.Equal(t, 1, found, h.Listener.Name)
		}
	}
}

// A background of nothing changes no figure, one as loud as all else adds 3.01 dB; it is what the file says, in bands or
// as a level that falls by 5 dB an octave.
func TestBackgroundAddsAsEnergy(t *testing.T) {
	b := demo(t, "dry-stack")
	at := func(bands spectrum.Bands) path.Heard {
		quiet := *b
		quiet.Listeners = []path.Listener{b.Listeners[0]}
		quiet.Listeners[0].Background = path.Background{Bands: bands, SD: 1}
		return quick(t, &quiet, b.Layouts[0]).Listeners[0]
	}
	none := at(spectrum.Fill(-300))
	twice := at(none.Bands)
	for k := range twice.Bands {
		require.InDelta(t, 10*math.Log10(2), twice.Bands[k]-none.Bands[k], 1e-9)
	}
	usual := quick(t, b, b.Layouts[0]).Listeners[0]
	require.InDelta(t, none.DBA(), usual.DBA(), 0.01, "a quiet night doesn't count beside an engine")
	level := path.BackgroundOf(52)
	require.InDelta(t, 52, level.DBA(), 1e-9)
	require.InDelta(t, 5, level[3]-level[4], 1e-9)
	all := demo(t, "everything")
	require.InDelta(t, 52, all.Listeners[0].Background.Bands.DBA(), 1e-9)
	require.Equal(t, "6 kn under sail", all.Listeners[0].Background.When)
	require.Equal(t, spectrum.Bands{48, 44, 40, 37, 34, 31, 28, 25, 20}, all.Listeners[2].Background.Bands)
}
