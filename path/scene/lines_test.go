package scene_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/source/spectrum"
)

// What is heard by lines and what is left in each octave add up to the bands, and weighed each at its own frequency to the
// level, in every layout of the demos; so after the routes have been moved.
func TestLinesAddUpToTheBands(t *testing.T) {
	for _, name := range []string{"dry-stack", "generator-box"} {
		b := demo(t, name)
		p, err := scene.Predict(b, b.Layouts[0])
		require.NoError(t, err)
		for _, h := range p.Listeners {
			linesAddUp(t, h)
			was, _ := h.Lines()
			by := spectrum.Bands{1, 2, -3, 4, -5, 6, 7, 8, 9}
			h.Move(func(r path.Route) spectrum.Bands {
				if r.Way == path.ByBackground {
					return spectrum.Bands{}
				}
				return by
			})
			linesAddUp(t, h)
			now, _ := h.Lines()
			require.Len(t, now, len(was))
			for i := range now {
				require.InDelta(t, was[i].Level+by[spectrum.BandOf(now[i].Frequency)], now[i].Level, 1e-9, "a line moves as its octave does")
			}
		}
	}
}

func linesAddUp(t *testing.T, h path.Heard) {
	t.Helper()
	lines, broad := h.Lines()
	require.NotEmpty(t, lines)
	all, weighted := broad, spectrum.Power(broad.DBA())
	for i, l := range lines {
		b := spectrum.BandOf(l.Frequency)
		all[b] = spectrum.Sum(all[b], l.Level)
		weighted += spectrum.Power(l.Level + spectrum.AAt(l.Frequency))
		require.NotEmpty(t, l.Engine)
		require.Positive(t, l.Order)
		require.True(t, i == 0 || lines[i-1].Frequency <= l.Frequency)
	}
	require.InDeltaSlice(t, h.Bands[:], all[:], 1e-6)
	require.InDelta(t, h.DBA(), spectrum.Level(weighted), 0.02, "what is only summed up keeps an A-weight of its own")
}

func TestWithoutRoutesAllIsLeft(t *testing.T) {
	lines, broad := path.Heard{Bands: spectrum.Fill(30)}.Lines()
	require.Empty(t, lines)
	require.Equal(t, spectrum.Fill(30), broad)
}
