package survey

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/draws/drawstest"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

// oddBoat draws a prediction that is possible but strange: silent routes, none at all, enormous
// levels and deviations, terms without a key.
func oddBoat(t *rapid.T) []path.Prediction {
	level := rapid.Custom(func(t *rapid.T) (b spectrum.Bands) {
		for i := range b {
			b[i] = rapid.OneOf(rapid.Just(spectrum.Silent), rapid.Float64Range(-50, 190)).Draw(t, "level")
		}
		return b
	})
	var all []path.Prediction
	for i := range rapid.IntRange(1, 3).Draw(t, "layouts") {
		p := path.Prediction{Layout: &path.Layout{Name: fmt.Sprint(i)}, Refused: rapid.Bool().Draw(t, "refused")}
		for j := range 2 {
			h := path.Heard{Listener: path.Listener{Name: fmt.Sprint("ear ", j)}}
			for range rapid.IntRange(0, 3).Draw(t, "routes") {
				r := path.Route{Bands: level.Draw(t, "bands"), Route: "outlet"}
				for range rapid.IntRange(0, 3).Draw(t, "terms") {
					r.Steps = append(r.Steps, path.Step{Uncertain: []path.Uncertain{{Term: "x", Key: rapid.SampledFrom([]string{"", "a", "b"}).Draw(t, "key"),
						SD: spectrum.Fill(rapid.Float64Range(0, 60).Draw(t, "sd"))}}})
				}
				h.Routes = append(h.Routes, r)
			}
			drawstest.Finish(&h)
			p.Listeners = append(p.Listeners, h)
		}
		p.Exhausts = []path.ExhaustResult{drawstest.Exhaust(rapid.Float64Range(0, 1e6).Draw(t, "rated"))}
		all = append(all, p)
	}
	return all
}

func finite(t require.TestingT, values ...float64) {
	for _, v := range values {
		require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%v", values)
	}
}

func TestOddBoatsGiveFiniteNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := oddBoat(t)
		m, err := draws.NewModel(all)
		require.NoError(t, err)
		reading := drawstest.HeardAt(1, "0", "ear 0", rapid.Float64Range(20, 140).Draw(t, "reading"), rapid.Float64Range(0.1, 20).Draw(t, "error"), "phone")
		e, err := m.Draw(draws.Options{N: 200})
		require.NoError(t, err)
		c, err := readings.Calibrate(m, e, []path.Reading{reading, drawstest.PressureAt(2, "0", rapid.Float64Range(1, 1e5).Draw(t, "Pa"), 50)}, nil)
		require.NoError(t, err)
		finite(t, c.Draws.Belief(m).Mean...)
		for _, e := range []*draws.Ensemble{e, c.Draws} {
			s := m.Spread(e)
			for _, l := range s.Layouts {
				for _, h := range l.Listeners {
					finite(t, h.Level, h.Low, h.High, h.SD, h.Quietest)
					require.True(t, h.Low <= h.Level && h.Level <= h.High)
				}
				for _, x := range l.Exhausts {
					finite(t, x.Rated, x.Low, x.High)
				}
			}
		}
		plan, err := Make(m, all, c.Draws, Options{})
		require.NoError(t, err)
		for _, r := range plan.Readings {
			finite(t, r.Before, r.After)
			require.LessOrEqual(t, r.After, r.Before+1e-9)
		}
	})
}
