package draws

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws/drawstest"
	"hushwake/source/spectrum"
)

// Doubts of one proportion become one that does what they did together, whatever their signs and however their figures came
// about; others stay as they are.
func TestMixedDoubtsDoWhatTheyDidApart(t *testing.T) {
	line, way := spectrum.Bands{0.3, 0.4, 0.6, 0.6, 0.5, 0.5, 0.25, 0.5, 1}, spectrum.Bands{1, 1, 1, 1, 2, 3, 4, 6, 6}
	flat, nearly := spectrum.Fill(5), spectrum.Fill(4*(0.1+0.2)/0.3)
	var sds []spectrum.Bands
	for _, w := range []float64{1, -0.7, 1.0 / 3} {
		for _, u := range []spectrum.Bands{line, way} {
			for b := range u {
				u[b] *= w
			}
			sds = append(sds, u)
		}
	}
	own := line
	own[8] *= 1 + 1e-9
	sds = append(sds, flat, nearly, own, spectrum.Bands{2: 3}, spectrum.Bands{2: -1})
	doubts, z, r := []doubt{}, make([][]float64, len(sds)), rand.New(rand.NewPCG(1, 2))
	for k := range sds {
		doubts, z[k] = append(doubts, doubt{k, &sds[k]}), []float64{r.NormFloat64()}
	}
	p := newPlan(z, 1)
	got := p.mixed(doubts)
	require.Len(t, got, 5) // line, way, flat, that which is nearly line, one band
	require.Len(t, p.mixes, 4)
	for i := range p.mixes {
		v := []float64{0}
		p.mixes[i].write(v, z[:p.terms])
		z = append(z, v)
	}
	for b := range spectrum.N {
		want, sum := 0.0, 0.0
		for k, sd := range sds {
			want += sd[b] * z[k][0]
		}
		for _, d := range got {
			sum += d.sd[b] * z[d.key][0]
		}
		require.InDelta(t, want, sum, 1e-10)
	}
	again := p.mixed(doubts[:6])
	require.Equal(t, got[:2], again, "what was mixed once is found again")
	require.Len(t, p.mixes, 4)
	require.Empty(t, p.mixed(nil))
}

// What equal routes have in common is worked out once, at all places and in all layouts: more layouts of the same ways bring
// only what is theirs.
func TestColumnsAreShared(t *testing.T) {
	columns := func(layouts int) int {
		m := model(t, drawstest.Boat(layouts, 3))
		e, err := m.Draw(Options{N: 200})
		require.NoError(t, err)
		p := newPlan(e.Terms(m), 200)
		for i, l := range m.Layouts {
			for _, h := range l.Listeners {
				asked := []Question{{h, spectrum.A}}
				p.enter(asked, p.sorted(asked), i)
			}
		}
		return len(p.columns)
	}
	require.Equal(t, 2*7, columns(3)-columns(1), "the line has a doubt of its own in each layout; in two pairs of bands its other doubts are equal")
}

// Deviations as large as they may be, all on one route, give levels that are finite, and those of the plain sum.
func TestLargestDeviations(t *testing.T) {
	p := drawstest.Boat(1, 0)[0]
	for j := range p.Listeners {
		for i := range p.Listeners[j].Routes {
			s := &p.Listeners[j].Routes[i].Steps[0]
			for _, key := range []string{"a", "b", "c"} {
				s.Uncertain = append(s.Uncertain, drawstest.Uncertain("large", key, mostSD))
			}
			s.Uncertain = append(s.Uncertain, drawstest.Uncertain("own", string(rune('d'+i)), mostSD))
		}
	}
	m := model(t, []path.Prediction{p})
	e, err := m.Draw(Options{N: 3000})
	require.NoError(t, err)
	levels, _, _ := m.run(e.z, e.Draws.N)
	for d, v := range levels[0][0] {
		require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
		if d%100 == 0 {
			require.InDelta(t, math.Max(whole(m.Layouts[0].Listeners[0], e.z, d), spectrum.Silent), v, 1e-3)
		}
	}
}

// Two ways that begin with the same doubt and share another, which moves one of them further, keep each their own measure of it.
func TestOneDoubtInTwoMeasures(t *testing.T) {
	p := drawstest.Boat(1, 0)[0]
	p.Listeners = p.Listeners[:1] // the others hear ways without that doubt
	h := &p.Listeners[0]
	h.Routes = []path.Route{drawstest.CasingRoute(60), drawstest.CasingRoute(60)}
	for i, sd := range []float64{1, 6} {
		h.Routes[i].Steps[0].Uncertain = append(h.Routes[i].Steps[0].Uncertain, drawstest.Uncertain("room", "room/cabin", sd))
	}
	m := model(t, []path.Prediction{p})
	e, err := m.Draw(Options{N: 300})
	require.NoError(t, err)
	levels, _, _ := m.run(e.z, e.Draws.N)
	for d, v := range levels[0][0] {
		require.InDelta(t, whole(m.Layouts[0].Listeners[0], e.z, d), v, 1e-9)
	}
}

// The energies near a median are the means of what each way brings in those draws, worked out one by one: by a plan of
// their own, and by that of all levels (first written for 1e-12, which the exponential, 6e-11 of an energy, does not keep).
func TestMeanEnergiesAreThoseOfTheWays(t *testing.T) {
	m := demo(t, "generator-box.yaml")
	e, err := m.Draw(Options{N: 400})
	require.NoError(t, err)
	whole, last := m.Run(e), len(m.Layouts[0].Listeners)-1
	h, of := m.Layouts[0].Listeners[last], []int{3, 50, 51, 399}
	got, shared := h.meanEnergies(e.z, of, entered{}), h.meanEnergies(e.z, of, whole.entered(0, last))
	for i, r := range h.Routes {
		var want spectrum.Bands
		for _, d := range of {
			at := make([]float64, len(e.z))
			for k := range at {
				at[k] = e.z[k][d]
			}
			for b, v := range r.At(at) {
				want[b] += spectrum.Power(v-r.Bands[b]) / float64(len(of))
			}
		}
		for b := range want {
			require.InDelta(t, r.Bands[b]+spectrum.Level(want[b]), got[i][b], 1e-9)
			require.InDelta(t, got[i][b], shared[i][b], 1e-9, "by the plan that the levels were worked out by")
		}
	}
}
