package draws

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"hushwake/path/study/draws/drawstest"
	"hushwake/source/spectrum"
)

// One ensemble gives a term the same draws in every model that has it, however few layouts that holds.
func TestEnsembleServesOtherModels(t *testing.T) {
	all := drawstest.Boat(3, 2)
	m, one := model(t, all), model(t, all[1:2])
	e, err := m.Draw(Options{N: 1000, Seed: 4})
	require.NoError(t, err)
	whole, part := m.Spread(e), one.Spread(e)
	require.Equal(t, whole.Layouts[1].Listeners[0].Level, part.Layouts[0].Listeners[0].Level)
	require.Equal(t, whole.Layouts[1].Exhausts, part.Layouts[0].Exhausts)
	z := e.Terms(m)
	z[0] = append([]float64(nil), z[0]...)
	for d := range z[0] {
		z[0][d] = -2
	}
	after := e.After(m, z)
	require.Less(t, one.Spread(after).Layouts[0].Listeners[0].Level, part.Layouts[0].Listeners[0].Level-4)
	require.Equal(t, whole, m.Spread(e), "the ensemble before stands")
}

// A term that the ensemble lacks gets draws of its own, unit normal and free of those of a term alike.
func TestEnsembleDrawsFurtherTerms(t *testing.T) {
	all := drawstest.Boat(1, 0)
	e, err := model(t, all).Draw(Options{})
	require.NoError(t, err)
	other := drawstest.Boat(1, 0)
	for i := range other[0].Listeners { // another engine, alike in everything
		other[0].Listeners[i].Routes[0].Steps[0].Uncertain[0].Key = "source level/wing"
	}
	m := model(t, other)
	z := e.Terms(m)
	k := m.index["source level/wing"]
	mean, sd := stat.MeanStdDev(z[k], nil)
	require.InDelta(t, 0, mean, 1e-9)
	require.InDelta(t, 1, sd, 0.01)
	held := e.z[e.at["source level/main"]]
	require.Less(t, math.Abs(stat.Correlation(z[k], held, nil)), 0.05)
	require.Equal(t, z[k], e.Terms(m)[k])
	require.Less(t, math.Abs(stat.Correlation(e.Fresh("a", 2)[1], e.Fresh("b", 2)[1], nil)), 0.05)
}

func TestThinKeepsEveryNth(t *testing.T) {
	m := model(t, drawstest.Boat(1, 1))
	e, err := m.Draw(Options{N: 1003})
	require.NoError(t, err)
	thin := e.Thin(10)
	require.Equal(t, 101, thin.Draws.N)
	require.Equal(t, e.z[0][20], thin.z[0][2])
	require.Len(t, m.Run(thin).Levels[0][0], 101)
}

// Without readings the belief is exactly that of unit normals; after them it has the moments of the draws.
func TestBeliefOfDraws(t *testing.T) {
	m := model(t, drawstest.Boat(1, 0))
	e, err := m.Draw(Options{})
	require.NoError(t, err)
	b := e.Belief(m)
	require.Nil(t, b.Cov)
	require.Zero(t, b.Mean[0])
	z := e.Terms(m)
	sum := append([]float64(nil), z[0]...)
	for d := range sum {
		sum[d] = 1 + 0.6*z[0][d] + 0.8*z[1][d]
	}
	z[0] = sum
	b = e.After(m, z).Belief(m)
	require.InDelta(t, 1, b.Mean[0], 1e-9)
	require.InDelta(t, 1, b.Cov.At(0, 0), 0.02)
	require.InDelta(t, 0.8, b.Cov.At(0, 1), 0.02)
}

// At the middle the level is the median, steps add up to routes and routes to the level, in dB(A) and
// by band, with readings and without.
func TestMiddleAddsUp(t *testing.T) {
	all := drawstest.Boat(2, 4)
	m := model(t, all)
	e, err := m.Draw(Options{N: 4000})
	require.NoError(t, err)
	z := e.Terms(m)
	for k := range z {
		z[k] = append([]float64(nil), z[k]...)
		for d := range z[k] {
			z[k][d] = 0.5*z[k][d] - 1
		}
	}
	for _, e := range []*Ensemble{e, e.After(m, z)} {
		s := m.Spread(e)
		for i := range all {
			was := all[i].Listeners[0].DBA()
			p, err := e.Middle(all[i])
			require.NoError(t, err)
			for j, h := range p.Listeners {
				require.InDelta(t, s.Layouts[i].Listeners[j].Level, h.DBA(), 1e-9)
				var routes []spectrum.Bands
				for k, r := range h.Routes {
					sum := spectrum.Bands{}
					names := ""
					for _, s := range r.Steps {
						sum, names = sum.Plus(s.Bands), names+s.Name+" "
					}
					require.InDeltaSlice(t, r.Bands[:], sum[:], 1e-9)
					require.Equal(t, e.Moved, strings.Contains(names, StepReadings), names)
					require.True(t, strings.Contains(names, stepMiddle))
					routes = append(routes, r.Bands)
					require.True(t, k == 0 || h.Routes[k-1].DBA() >= r.DBA(), "loudest first")
				}
				sum := spectrum.SumBands(routes...)
				require.InDeltaSlice(t, h.Bands[:], sum[:], 1e-9)
			}
			require.InDelta(t, s.Layouts[i].Exhausts[0].Rated, p.Exhausts[0].Rated.BackPressure, 1e-6)
			require.Equal(t, was, all[i].Listeners[0].DBA(), "the original is as it was")
		}
	}
}

// Without any doubt the middle is the prediction itself, bit by bit.
func TestMiddleWithoutDoubt(t *testing.T) {
	all := drawstest.Scaled(drawstest.Boat(1, 2), 0)
	m := model(t, all)
	e, err := m.Draw(Options{N: 200})
	require.NoError(t, err)
	p, err := e.Middle(all[0])
	require.NoError(t, err)
	for j, h := range p.Listeners {
		require.InDelta(t, all[0].Listeners[j].DBA(), h.DBA(), 1e-9)
		require.Len(t, h.Routes[0].Steps, len(all[0].Listeners[j].Routes[0].Steps))
	}
	all[0].Listeners[0].Routes = nil
	_, err = e.Middle(all[0])
	require.NoError(t, err)
	all[0].Listeners[1].Routes[0].Bands[2] = math.NaN()
	_, err = e.Middle(all[0])
	require.Error(t, err)
}

// Levels with a weighting are those of Level, draw by draw.
func TestLevelsAreThoseOfLevel(t *testing.T) {
	m := model(t, drawstest.Boat(1, 3))
	e, err := m.Draw(Options{N: 700})
	require.NoError(t, err)
	z, out, h := e.Terms(m), make([]float64, 700), m.Layouts[0].Listeners[2]
	for _, w := range []spectrum.Bands{spectrum.A, spectrum.C, {}, OnlyBand(4)} {
		h.Levels(z, w, out)
		for _, d := range []int{0, chunk - 1, chunk, 699} {
			at := make([]float64, len(z))
			for k := range z {
				at[k] = z[k][d]
			}
			require.InDelta(t, h.Level(at, w), out[d], 1e-9)
		}
	}
}

// Levels asked for together are those asked for one by one: of several places and layouts, each with its own weighting.
func TestLevelsTogether(t *testing.T) {
	m := model(t, drawstest.Boat(2, 3))
	e, err := m.Draw(Options{N: 2000})
	require.NoError(t, err)
	var asked []Question
	for i, l := range m.Layouts {
		for j, h := range l.Listeners {
			asked = append(asked, Question{h, []spectrum.Bands{spectrum.A, spectrum.C, {}, OnlyBand(4)}[(i+j)%4]})
		}
	}
	z, together, alone := e.Terms(m), rows(len(asked), 2000), make([]float64, 2000)
	all, other := Ask(asked, len(z)), rows(len(z), 2000)
	for k := range z { // other draws before leave nothing behind
		floats.AddScaledTo(other[k], make([]float64, 2000), 3, z[k])
	}
	all.Levels(other, together)
	wide := slices.Clone(together[0])
	all.Levels(z, together)
	require.NotEqual(t, wide, together[0])
	fresh := rows(len(asked), 2000)
	Ask(asked, len(z)).Levels(z, fresh)
	require.Equal(t, fresh, together)
	for i, q := range asked {
		q.At.Levels(z, q.Weight, alone)
		require.InDeltaSlice(t, alone, together[i], 1e-4)
		if i > 0 {
			require.NotEqual(t, together[i-1], together[i])
		}
	}
	Ask(nil, len(z)).Levels(z, nil)
}

// What matters is the same whether the covariance of all terms is asked for or that of those that move the level.
func TestMattersInAnEnsemble(t *testing.T) {
	m := model(t, drawstest.Boat(2, 3))
	e, err := m.Draw(Options{N: 500})
	require.NoError(t, err)
	require.Equal(t, m.Matters(Belief{Mean: e.Means(m)}, "layout 2", "helm"), m.MattersIn(e, "layout 2", "helm"))
	z := e.Terms(m)
	for k := range z {
		z[k] = append([]float64(nil), z[k]...)
		for d := range z[k] {
			z[k][d] = 0.3*z[k][d] + 0.4*z[0][d] - 1
		}
	}
	moved := e.After(m, z)
	want, got := m.Matters(moved.Belief(m), "layout 2", "helm"), m.MattersIn(moved, "layout 2", "helm")
	require.Len(t, got, len(want))
	for i := range want {
		require.Equal(t, want[i].Term, got[i].Term)
		require.InDelta(t, want[i].Share, got[i].Share, 1e-9)
		require.InDelta(t, want[i].SD, got[i].SD, 1e-9)
	}
	require.Empty(t, m.MattersIn(moved, "layout 2", "nowhere"))
}
