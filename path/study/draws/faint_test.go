package draws

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/floats"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/source/spectrum"
	"hushwake/testdata/turns"
)

// demo is the model of a demo boat.
func demo(t testing.TB, file string) *Model {
	t.Helper()
	b, err := boatfile.LoadFile("../../../testdata/" + file)
	require.NoError(t, err)
	all, session := make([]path.Prediction, len(b.Layouts)), scene.NewSession(b)
	for i, l := range b.Layouts {
		all[i], err = session.Predict(l, path.Full)
		require.NoError(t, err)
	}
	return model(t, all)
}

// whole is the level at a place in a draw with nothing left out.
func whole(h *Listener, z [][]float64, d int) float64 {
	at := make([]float64, len(z))
	for k := range z {
		at[k] = z[k][d]
	}
	return h.Level(at, spectrum.A)
}

// What is left out moves no median or band of a demo by 3e-5 dB and no level by 1e-4 dB in root mean square; drawn as
// before any reading, and as after some that pulled every term by two deviations and left half of its spread. The figures
// belong to the two limits of the code; with limits a hundred times wider they were 3e-4 dB. (First
// 1e-5 for the medians, which one of 306 missed by 0.3e-5.)
func TestFaintIsFaint(t *testing.T) {
	files := []string{"three-quotes.yaml", "dry-stack.yaml"}
	for i := range turns.Of(t, len(files), 2) {
		file := files[i]
		m := demo(t, file)
		e, err := m.Draw(Options{N: 2000})
		require.NoError(t, err)
		for _, moved := range []bool{false, true} {
			z := e.Terms(m)
			for k := range z {
				if moved {
					floats.Scale(0.5, z[k])
					floats.AddConst(float64(2-4*(k%2)), z[k])
				}
			}
			levels, _, _ := m.run(z, e.Draws.N)
			for i, l := range m.Layouts {
				for j, h := range l.Listeners {
					exact, square := make([]float64, e.Draws.N), 0.0
					for d := range exact {
						exact[d] = whole(h, z, d)
						square += math.Pow(exact[d]-levels[i][j][d], 2)
					}
					require.Less(t, math.Sqrt(square/float64(e.Draws.N)), 1e-4, "%s %s %s", file, l.Name, h.Name)
					for _, p := range []float64{0.1, 0.5, 0.9} {
						require.InDelta(t, Quantile(exact, p), Quantile(levels[i][j], p), 3e-5, "%s %s %s", file, l.Name, h.Name)
					}
				}
			}
		}
	}
}

// Few draws are worked out whole, so that a part of the draws is what it is in all of them.
func TestFewDrawsLeaveNothingOut(t *testing.T) {
	m := demo(t, "generator-box.yaml")
	e, err := m.Draw(Options{N: 20*probes - 1})
	require.NoError(t, err)
	levels, _, _ := m.run(e.z, e.Draws.N)
	for d := range 40 {
		require.InDelta(t, whole(m.Layouts[0].Listeners[0], e.z, d), levels[0][0][d], 1e-9)
	}
}

// BenchmarkDemo is all levels of a demo in 10 000 draws.
func BenchmarkDemo(b *testing.B) {
	m := demo(b, "dry-stack.yaml")
	e, err := m.Draw(Options{})
	require.NoError(b, err)
	for b.Loop() {
		m.Run(e)
	}
}
