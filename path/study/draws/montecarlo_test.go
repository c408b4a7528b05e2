package draws

import (
	"encoding/json"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws/drawstest"
	"hushwake/source/spectrum"
)

func model(t testing.TB, all []path.Prediction) *Model {
	t.Helper()
	m, err := NewModel(all)
	require.NoError(t, err)
	return m
}

func TestOneFlatTermGivesTheNormalDistribution(t *testing.T) {
	// One route, one flat term of 4 dB: the percentiles of a normal distribution in closed form.
	h := path.Heard{Listener: path.Listener{Name: "helm"}, Routes: []path.Route{{Bands: drawstest.ExhaustBands,
		Steps: []path.Step{{Uncertain: []path.Uncertain{drawstest.Uncertain("source level", "s", 4)}}}}}}
	limit := drawstest.ExhaustBands.DBA() + 4
	h.Listener.Limit = &limit
	m := model(t, []path.Prediction{{Layout: &path.Layout{Name: "a"}, Listeners: []path.Heard{h}}})
	s, err := m.MonteCarlo(Options{})
	require.NoError(t, err)
	got := s.Layouts[0].Listeners[0]
	require.InDelta(t, drawstest.ExhaustBands.DBA(), got.Level, 0.01)
	require.InDelta(t, got.Level-4*1.28155, got.Low, 0.01)
	require.InDelta(t, got.Level+4*1.28155, got.High, 0.01)
	require.InDelta(t, 4, got.SD, 0.01)
	require.InDelta(t, 0.158655, *got.OverLimit, 0.001) // 1 - Phi(1)
	require.Equal(t, 1.0, got.Quietest)
}

// linear carries unit normals to a level to first order: sd^2 = g'g, g = dL/dz (ISO/IEC Guide 98-3, 5.1).
func linear(m *Model, h *Listener) (level, sd float64) {
	for _, g := range h.Gradient(nil, spectrum.A, len(m.Terms)) {
		sd += g * g
	}
	return h.Level(nil, spectrum.A), math.Sqrt(sd)
}

func TestSumOfTwoEqualIndependentRoutes(t *testing.T) {
	// Two equal routes: with a shared key the level moves as one, with keys of their own by
	// sd/sqrt(2) to first order.
	make := func(k1, k2 string) *Model {
		r := func(k string) path.Route {
			return path.Route{Bands: drawstest.ExhaustBands, Steps: []path.Step{{Uncertain: []path.Uncertain{drawstest.Uncertain("x", k, 1)}}}}
		}
		return model(t, []path.Prediction{{Layout: &path.Layout{Name: "a"},
			Listeners: []path.Heard{{Listener: path.Listener{Name: "helm"}, Routes: []path.Route{r(k1), r(k2)}}}}})
	}
	for _, c := range []struct {
		a, b string
		sd   float64
	}{{"k", "k", 1}, {"k", "l", math.Sqrt2 / 2}} {
		m := make(c.a, c.b)
		_, sd := linear(m, m.Layouts[0].Listeners[0])
		require.InDelta(t, c.sd, sd, 1e-9)
		s, err := m.MonteCarlo(Options{})
		require.NoError(t, err)
		require.InDelta(t, c.sd, s.Layouts[0].Listeners[0].SD, 0.02)
	}
}

func TestLinearAgreesForSmallDeviations(t *testing.T) {
	m := model(t, drawstest.Scaled(drawstest.Boat(4, 3), 0.35))
	s, err := m.MonteCarlo(Options{})
	require.NoError(t, err)
	for i, l := range s.Layouts {
		for j, h := range l.Listeners {
			level, sd := linear(m, m.Layouts[i].Listeners[j])
			require.InDelta(t, level-Z90*sd, h.Low, 0.3, l.Name+h.Listener)
			require.InDelta(t, level+Z90*sd, h.High, 0.3, l.Name+h.Listener)
		}
	}
}

func TestGradientIsTheDifferenceQuotient(t *testing.T) {
	m := model(t, drawstest.Boat(2, 3))
	z := make([]float64, len(m.Terms))
	for k := range z {
		z[k] = math.Sin(float64(k))
	}
	h := m.Layouts[1].Listeners[0]
	for _, w := range []spectrum.Bands{spectrum.A, spectrum.C, OnlyBand(3)} {
		g := h.Gradient(z, w, len(z))
		for k := range z {
			up, down := append([]float64(nil), z...), append([]float64(nil), z...)
			up[k] += 1e-4
			down[k] -= 1e-4
			require.InDelta(t, (h.Level(up, w)-h.Level(down, w))/2e-4, g[k], 1e-6)
		}
	}
}

// An order off the middle of its octave keeps its own A-weight in draws, gradients and propagation, and has no part
// in C-weighted or single bands: 125 Hz weighed 3.5 dB over the octave rules one listener more than another.
func TestOrdersKeepTheirWeight(t *testing.T) {
	all := drawstest.Boat(1, 0)
	tonal := spectrum.A
	tonal[2] += 3.5
	for i := range all[0].Listeners {
		all[0].Listeners[i].Routes[0].AWeight = tonal
	}
	m, plain := model(t, all), model(t, drawstest.Boat(1, 0))
	s, err := m.MonteCarlo(Options{N: 2000})
	require.NoError(t, err)
	o, err := plain.MonteCarlo(Options{N: 2000})
	require.NoError(t, err)
	for i, h := range all[0].Listeners {
		raised := h.DBA() - h.Bands.DBA()
		require.Greater(t, raised, 0.5)
		require.InDelta(t, h.DBA(), m.Layouts[0].Listeners[i].Level(nil, spectrum.A), 1e-9)
		require.InDelta(t, raised, s.Layouts[0].Listeners[i].Level-o.Layouts[0].Listeners[i].Level, 0.3)
		z := make([]float64, len(m.Terms))
		require.InDelta(t, h.Bands.DBC(), m.Layouts[0].Listeners[i].Level(z, spectrum.C), 1e-9)
		require.InDelta(t, h.Bands[2], m.Layouts[0].Listeners[i].Level(z, OnlyBand(2)), 1e-9)
		up := append([]float64(nil), z...)
		up[0] = 1e-4
		require.InDelta(t, (m.Layouts[0].Listeners[i].Level(up, spectrum.A)-m.Layouts[0].Listeners[i].Level(z, spectrum.A))/1e-4,
			m.Layouts[0].Listeners[i].Gradient(z, spectrum.A, len(z))[0], 1e-3)
	}
}

func TestSameBitsOnAnyNumberOfCores(t *testing.T) {
	run := func(procs int) string {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(procs))
		m := model(t, drawstest.Boat(3, 4))
		s, err := m.MonteCarlo(Options{N: 1300, Seed: 7})
		require.NoError(t, err)
		text, err := json.Marshal(s)
		require.NoError(t, err)
		return string(text)
	}
	one := run(1)
	require.Equal(t, one, run(2))
	require.Equal(t, one, run(7))
	m := model(t, drawstest.Boat(3, 4))
	other, err := m.MonteCarlo(Options{N: 1300, Seed: 8})
	require.NoError(t, err)
	text, _ := json.Marshal(other)
	require.NotEqual(t, one, string(text))
}

func TestConvergesWithDraws(t *testing.T) {
	m := model(t, drawstest.Boat(3, 2))
	most, err := m.MonteCarlo(Options{N: 32000, Seed: 2})
	require.NoError(t, err)
	apart := func(n int) (far float64) { // dB, the largest distance of a percentile from that of most draws
		s, err := m.MonteCarlo(Options{N: n})
		require.NoError(t, err)
		for i, l := range s.Layouts {
			for j, h := range l.Listeners {
				o := most.Layouts[i].Listeners[j]
				far = math.Max(far, math.Max(math.Abs(h.Low-o.Low), math.Abs(h.High-o.High)))
			}
		}
		return far
	}
	require.Less(t, apart(8000), apart(500))
	require.Less(t, apart(8000), 0.2) // two percentiles of 8000 draws lie within 0.2 dB of those of 32000
}

func TestRefusedLayoutIsNeverTheQuietest(t *testing.T) {
	all := drawstest.Boat(3, 1)
	all[2].Refused = true // the quietest by far
	m := model(t, all)
	s, err := m.MonteCarlo(Options{N: 1000})
	require.NoError(t, err)
	for j := range 4 {
		sum := 0.0
		for _, l := range s.Layouts {
			sum += l.Listeners[j].Quietest
		}
		require.InDelta(t, 1, sum, 1e-9)
		require.Zero(t, s.Layouts[2].Listeners[j].Quietest)
	}
}

func TestPressureBandAndProbability(t *testing.T) {
	m := model(t, drawstest.Boat(3, 0))
	s, err := m.MonteCarlo(Options{})
	require.NoError(t, err)
	sd := math.Sqrt(.1*.1 + .05*.05 + .15*.15)
	for i, l := range s.Layouts {
		median := 5000 + 1000*float64(i)
		require.InEpsilon(t, median*math.Exp(-Z90*sd), l.Exhausts[0].Low, 0.01)
		want := 0.5 * math.Erfc(math.Log(7000/median)/sd/math.Sqrt2)
		require.InDelta(t, want, *l.OverBackPressure, 0.01)
	}
}

func TestBadInputOfTheDraws(t *testing.T) {
	_, err := NewModel(nil)
	require.ErrorContains(t, err, "no prediction")
	all := drawstest.Boat(1, 0)
	all[0].Listeners[0].Routes[0].Bands[3] = math.NaN()
	_, err = NewModel(all)
	require.ErrorContains(t, err, "no finite level at 250 Hz")
	all = drawstest.Boat(1, 0)
	all[0].Listeners[0].Routes[0].Steps[0].Uncertain[0].SD[0] = -1
	_, err = NewModel(all)
	require.ErrorContains(t, err, "deviation")
	m := model(t, drawstest.Boat(1, 0))
	for _, n := range []int{-5, 3, 2000000} {
		_, err = m.MonteCarlo(Options{N: n})
		require.ErrorContains(t, err, "hint:")
	}
}

func TestMattersSharesAddUp(t *testing.T) {
	m := model(t, drawstest.Boat(2, 2))
	sum := 0.0
	shares := m.Matters(Belief{}, "layout 1", "helm")
	for _, s := range shares {
		sum += s.Share
	}
	require.InDelta(t, 1, sum, 1e-9)
	require.Equal(t, "source level", shares[0].Name)
}

func BenchmarkMonteCarlo(b *testing.B) {
	m := model(b, drawstest.Boat(6, 8)) // 6 layouts, 4 listeners, 10 routes, 9 bands, 10 000 draws
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.MonteCarlo(Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
