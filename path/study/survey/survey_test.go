package survey

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/draws/drawstest"
	"hushwake/path/study/readings"
)

func TestSurveyFiguresAreThoseOfTheCalibration(t *testing.T) {
	// The narrowing foretold for the helm reading is what calibrating on it gives, for any value of
	// it that leaves the routes' shares as they are.
	all := drawstest.Boat(3, 1)
	m := model(t, all)
	e := drawn(t, m)
	plan, err := Make(m, all, e, Options{SD: 2})
	require.NoError(t, err)
	require.Equal(t, "helm", plan.Listener)
	level := m.Spread(e).Layouts[0].Listeners[0].Level
	c, err := readings.Calibrate(m, e, []path.Reading{drawstest.HeardAt(1, "layout 1", "helm", level, 2, "phone")}, nil)
	require.NoError(t, err)
	before, after, n := 0.0, 0.0, 0.0
	was, is := m.Spread(e), m.Spread(c.Draws)
	for i := range m.Layouts {
		before, after, n = before+math.Pow(was.Layouts[i].Listeners[0].SD, 2), after+math.Pow(is.Layouts[i].Listeners[0].SD, 2), n+1
	}
	found := false
	for _, r := range plan.Readings {
		if r.Where == "helm" && r.What[:5] == "dB(A)" && r.Unit == "dB" {
			found = true
			// the plan is linear in the terms, the draws add energies (1e-6 when both were linear)
			require.InDelta(t, math.Sqrt(before/n), r.Before, 0.3)
			require.InDelta(t, math.Sqrt(after/n), r.After, 0.3)
		}
	}
	require.True(t, found)
}

func TestAfterIsTheLinearUpdate(t *testing.T) {
	m := model(t, drawstest.Boat(2, 1))
	g := m.Layouts[0].Listeners[0].Gradient(nil, [9]float64{}, len(m.Terms))
	b := draws.Belief{}.After(g, 2)
	a := m.Layouts[1].Listeners[0].Gradient(nil, [9]float64{}, len(m.Terms))
	_, want := narrowedBy(draws.Belief{}, [][]float64{a}, g, 2)
	require.InDelta(t, want, math.Sqrt(b.Variance(a)), 1e-9)
}

func TestDoorsThatTellNothingNewAreLeftOut(t *testing.T) {
	all := drawstest.Boat(2, 1)
	m := model(t, all)
	predict := func(_ string, r path.Reading) (path.Prediction, error) {
		p := drawstest.Boat(1, 1)[0]
		if len(r.Open) > 0 && r.Open[0] == "hatch" { // with it open the casing rules, which the shut seat hardly shows
			for i := range p.Listeners[0].Routes[1:] {
				p.Listeners[0].Routes[i+1].Bands = p.Listeners[0].Routes[i+1].Bands.Shift(40)
			}
		}
		return p, nil
	}
	plan, err := Make(m, all, drawn(t, m), Options{Doors: []string{"hatch", "window", "skylight"}, Predict: predict})
	require.NoError(t, err)
	doors := 0
	for _, r := range plan.Readings {
		if strings.Contains(r.What, "open: ") {
			doors++
		}
	}
	require.GreaterOrEqual(t, doors, 1)
	require.Less(t, doors, 3)
}

func TestSurveyOrderAndKinds(t *testing.T) {
	all := drawstest.Boat(3, 1)
	for i := range all {
		all[i].Exhausts[0].Source.Duty.Speed, all[i].Exhausts[0].Source.Duty.Power = 1700, 62000
	}
	m := model(t, all)
	asked := 0
	predict := func(string, path.Reading) (path.Prediction, error) {
		asked++
		p := drawstest.Boat(1, 1)[0]
		p.Listeners[0].Routes[0].Bands = p.Listeners[0].Routes[0].Bands.Shift(-10)
		return p, nil
	}
	plan, err := Make(m, all, drawn(t, m), Options{Doors: []string{"door"}, Predict: predict})
	require.NoError(t, err)
	require.Equal(t, 2, asked)
	require.Contains(t, plan.Readings[len(plan.Readings)-1].What, "engines off", "it narrows nothing, so it stands behind all that does")
	last, kinds := 0.0, map[string]bool{}
	for i, r := range plan.Readings {
		require.Equal(t, i+1, r.Order)
		require.NotEmpty(t, r.How)
		kinds[r.Unit] = true
		if i < len(plan.Readings)-1 {
			require.Less(t, r.After, r.Before)
			require.GreaterOrEqual(t, r.After/r.Before, last-1e-12)
			last = r.After / r.Before
		}
	}
	require.Len(t, kinds, 2)
	require.Len(t, plan.Acceptance, 12)
	level := 2.0
	plan, err = Make(m, all, drawn(t, m), Options{Readings: []path.Reading{{Layout: "layout 1", Listener: "helm", Level: &level, Weighting: "A"},
		{Layout: "layout 1", Engine: "main", BackPress: &level}, {Layout: "layout 1", Listener: "deck", Level: &level, Strike: true},
		{Layout: "layout 1", Listener: "cabin", Level: &level, Weighting: "A", RunSpeed: 900, Background: &level}}})
	require.NoError(t, err)
	left := map[string]bool{}
	for _, r := range plan.Readings {
		left[r.Where+" "+r.What[:5]] = true
	}
	require.False(t, left["helm dB(A)"], "the file holds it")
	require.False(t, left["exhaust of main back "], "the file holds it")
	require.True(t, left["helm dB(C)"] && left["deck dB(A)"] && left["cabin dB(A)"], "other weightings, struck ones and other speeds it does not")
	require.Equal(t, "helm, deck, next boat", plan.Readings[len(plan.Readings)-1].Where, "the background of the cabin is there")
	for _, a := range plan.Acceptance {
		require.Less(t, a.Low, a.Level)
		require.Greater(t, a.High, a.Level+draws.Z90*readings.PhoneSD-1e-9)
	}
	stuck, err := Make(m, all, drawn(t, m), Options{Predict: func(string, path.Reading) (path.Prediction, error) { return path.Prediction{}, errors.New("too lean") }})
	require.NoError(t, err)
	require.Contains(t, stuck.Notes[0], "too lean")
	require.NotEmpty(t, stuck.Readings)
	_, err = Make(m, all, drawn(t, m), Options{Present: "layout 7"})
	require.ErrorContains(t, err, "hint")
	_, err = Make(m, all, drawn(t, m), Options{Listener: "mast"})
	require.Error(t, err)
}

// With every engine stopped nothing is uncertain: a plan is made without a panic.
func TestSurveyWithNothingRunning(t *testing.T) {
	if got := (draws.Belief{}).After(nil, 2); got.Mean != nil || got.Cov != nil {
		t.Errorf("nothing to learn, yet the belief changed to %+v", got)
	}
}
