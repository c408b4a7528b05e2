package study

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
)

func TestSurveyFiguresAreThoseOfTheCalibration(t *testing.T) {
	// The narrowing foretold for the helm reading is what calibrating on it gives, for any value of
	// it that leaves the routes' shares as they are.
	all := boat(3, 1)
	m := model(t, all)
	plan, err := m.Survey(all, m.Prior(), SurveyOptions{SD: 2})
	require.NoError(t, err)
	require.Equal(t, "helm", plan.Listener)
	level := m.Propagate(m.Prior())[0].Level
	c := calibrated(t, m, heardAt(1, "layout 1", "helm", level, 2, "phone"))
	before, after, n := 0.0, 0.0, 0.0
	for i := range c.Before {
		if c.Before[i].Listener == "helm" {
			before, after, n = before+c.Before[i].SD*c.Before[i].SD, after+c.After[i].SD*c.After[i].SD, n+1
		}
	}
	found := false
	for _, r := range plan.Readings {
		if r.Where == "helm" && r.What[:5] == "dB(A)" && r.Unit == "dB" {
			found = true
			require.InDelta(t, math.Sqrt(before/n), r.Before, 1e-6)
			require.InDelta(t, math.Sqrt(after/n), r.After, 1e-6)
		}
	}
	require.True(t, found)
}

func TestAfterIsTheLinearUpdate(t *testing.T) {
	m := model(t, boat(2, 1))
	g := m.layouts[0].heard[0].gradient(m.Prior().Mean, [9]float64{}, len(m.Terms))
	b := m.Prior().after(g, 2)
	a := m.layouts[1].heard[0].gradient(m.Prior().Mean, [9]float64{}, len(m.Terms))
	_, want := m.Prior().narrowed([][]float64{a}, g, 2)
	require.InDelta(t, want, math.Sqrt(b.variance(a)), 1e-9)
}

func TestDoorsThatTellNothingNewAreLeftOut(t *testing.T) {
	all := boat(2, 1)
	m := model(t, all)
	predict := func(_ string, r path.Reading) (path.Prediction, error) {
		p := boat(1, 1)[0]
		if len(r.Open) > 0 && r.Open[0] == "hatch" { // with it open the casing rules, which the shut seat hardly shows
			for i := range p.Listeners[0].Routes[1:] {
				p.Listeners[0].Routes[i+1].Bands = p.Listeners[0].Routes[i+1].Bands.Shift(40)
			}
		}
		return p, nil
	}
	plan, err := m.Survey(all, m.Prior(), SurveyOptions{Doors: []string{"hatch", "window", "skylight"}, Predict: predict})
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
	all := boat(3, 1)
	for i := range all {
		all[i].Exhausts[0].Source.Duty.Speed, all[i].Exhausts[0].Source.Duty.Power = 1700, 62000
	}
	m := model(t, all)
	asked := 0
	predict := func(string, path.Reading) (path.Prediction, error) {
		asked++
		p := boat(1, 1)[0]
		p.Listeners[0].Routes[0].Bands = p.Listeners[0].Routes[0].Bands.Shift(-10)
		return p, nil
	}
	plan, err := m.Survey(all, m.Prior(), SurveyOptions{Doors: []string{"door"}, Predict: predict})
	require.NoError(t, err)
	require.Equal(t, 2, asked)
	require.Contains(t, plan.Readings[0].What, "engines off")
	last, kinds := 0.0, map[string]bool{}
	for i, r := range plan.Readings {
		require.Equal(t, i+1, r.Order)
		require.NotEmpty(t, r.How)
		kinds[r.Unit] = true
		if i > 0 {
			require.Less(t, r.After, r.Before)
			require.GreaterOrEqual(t, r.After/r.Before, last-1e-12)
			last = r.After / r.Before
		}
	}
	require.Len(t, kinds, 2)
	best, ok := plan.Narrowest()
	require.True(t, ok)
	require.Equal(t, "dB", best.Unit)
	require.Len(t, plan.Acceptance, 12)
	for _, a := range plan.Acceptance {
		require.Less(t, a.Low, a.Level)
		require.Greater(t, a.High, a.Level+z90*phoneSD-1e-9)
	}
	stuck, err := m.Survey(all, m.Prior(), SurveyOptions{Predict: func(string, path.Reading) (path.Prediction, error) { return path.Prediction{}, errors.New("too lean") }})
	require.NoError(t, err)
	require.Contains(t, stuck.Notes[0], "too lean")
	require.NotEmpty(t, stuck.Readings)
	_, err = m.Survey(all, m.Prior(), SurveyOptions{Present: "layout 7"})
	require.ErrorContains(t, err, "hint")
	_, err = m.Survey(all, m.Prior(), SurveyOptions{Listener: "mast"})
	require.Error(t, err)
}

// diagnosed simulates readings before and after a change on a boat with all kinds of routes.
func diagnosed(t *testing.T, change map[path.Way]float64, pressure float64) Diagnosis {
	p := boat(1, 0)[0]
	for i := range p.Listeners {
		h := &p.Listeners[i]
		h.Listener.In = []string{"wheelhouse", path.Outside, "cabin", path.Outside}[i]
		w := casingRoute(45)
		w.Way, w.Source, w.Route = path.ByLineWall, "main exhaust", "wall of pipe > engine room > cabin"
		s := casingRoute([]float64{50, 20, 55, 10}[i])
		s.Way, s.Source, s.Route = path.ByStructure, "main casing", "casing > hull"
		s.Steps[0].Uncertain = append(s.Steps[0].Uncertain, uncertain("hull", "hull/main", 6))
		h.Routes = append(h.Routes, w, s)
	}
	space := path.Heard{Listener: path.Listener{Name: "engine room", In: "engine room"}, Routes: []path.Route{casingRoute(100), outletRoute("layout 1", 0, 5, 2)}}
	space.Routes[1].Way, space.Routes[1].Route = path.ByLineWall, "wall of pipe > engine room"
	finish(&space)
	p.Listeners = append(p.Listeners, space)
	m := model(t, []path.Prediction{p})
	var base, later []path.Reading
	for i, h := range m.layouts[0].heard {
		now := 0.0
		for _, r := range h.routes {
			now += math.Pow(10, (r.bands.DBA()+change[r.way])/10)
		}
		base = append(base, heardAt(i+1, "layout 1", h.listener, p.Listeners[i].DBA(), 2, "phone"))
		base[i].Level = f(h.level(nil, [9]float64{-39.4, -26.2, -16.1, -8.6, -3.2, 0, 1.2, 1.0, -1.1}))
		later = append(later, heardAt(i+1, "layout 1", h.listener, 10*math.Log10(now), 2, "phone"))
	}
	base = append(base, pressureAt(9, "layout 1", 3000, 60))
	later = append(later, pressureAt(9, "layout 1", 3000*pressure, 60))
	d, err := m.Diagnose(m.Prior(), base, later, nil)
	require.NoError(t, err)
	sum := 0.0
	for _, c := range d.Causes {
		sum += c.Probability
	}
	require.InDelta(t, 1, sum, 1e-9)
	return d
}

func TestDiagnosisNamesWhatChanged(t *testing.T) {
	for _, c := range []struct {
		want     string
		change   map[path.Way]float64
		pressure float64
	}{
		{"nothing", nil, 1},
		{"baffle", map[path.Way]float64{path.ByOutlet: 9}, 0.93},
		{"hole", map[path.Way]float64{path.ByLineWall: 24}, 0.95},
		{"mount", map[path.Way]float64{path.ByStructure: 14}, 1},
		{"fouling", map[path.Way]float64{path.ByOutlet: -0.5}, 1.45},
		{"engine", map[path.Way]float64{path.ByAir: 9}, 1},
	} {
		d := diagnosed(t, c.change, c.pressure)
		require.Equal(t, c.want, d.Causes[0].Name, "%+v %+v", d.Changes, d.Causes[:3])
	}
}

func TestDiagnosisNeedsMatchingReadings(t *testing.T) {
	m := model(t, boat(1, 0))
	_, err := m.Diagnose(m.Prior(), nil, []path.Reading{heardAt(1, "layout 1", "helm", 80, 2, "phone")}, nil)
	require.ErrorContains(t, err, "hint: repeat")
}

func TestRepeatedReadings(t *testing.T) {
	open := heardAt(4, "layout 1", "helm", 84, 2, "phone")
	open.Open = []string{"door"}
	stated := heardAt(6, "layout 1", "helm", 82, 2, "phone")
	stated.RunEngine, stated.RunSpeed = "main", 1700 // the running duty, said outright
	list := []path.Reading{heardAt(1, "layout 1", "helm", 76, 2, "phone"), heardAt(2, "layout 1", "deck", 80, 2, "phone"),
		pressureAt(3, "layout 1", 3000, 60), open, heardAt(5, "layout 1", "helm", 79, 2, "phone"), stated, pressureAt(7, "layout 1", 3900, 60)}
	p := boat(1, 0)
	p[0].Exhausts[0].Source.Duty.Speed = 1700
	m := model(t, p)
	base, later := m.Repeated(list)
	require.Len(t, base, 2)
	require.Equal(t, []int{1, 3}, []int{base[0].Index, base[1].Index})
	require.Equal(t, []int{6, 7}, []int{later[0].Index, later[1].Index})
	same := func(string, path.Reading) (path.Prediction, error) { return p[0], nil }
	d, err := m.Diagnose(m.Prior(), base, later, same)
	require.NoError(t, err)
	require.Contains(t, d.Sentences()[0], "+6.0 dB")
	require.Contains(t, d.Sentences()[1], "+30.0 %")
	none, _ := m.Repeated(list[:4])
	require.Empty(t, none)
}

func TestCalibrateLogKeepsLaterReadingsApartWhenSomethingChanged(t *testing.T) {
	m := model(t, boat(1, 0))
	helm := m.Propagate(m.Prior())[0].Level
	log := []path.Reading{heardAt(1, "layout 1", "helm", helm, 2, "phone"), pressureAt(2, "layout 1", 3000, 60)}
	first := calibrated(t, m, log...)
	c, d, err := m.CalibrateLog(append(log, heardAt(3, "layout 1", "helm", helm+10, 2, "phone"), pressureAt(4, "layout 1", 2800, 60)), nil)
	require.NoError(t, err)
	require.Equal(t, "baffle", d.Causes[0].Name)
	require.InDeltaSlice(t, first.Belief.Mean, c.Belief.Mean, 1e-9)
	require.Len(t, c.Residuals, 4)
	require.False(t, c.Residuals[2].Used)
	require.Contains(t, c.Residuals[2].Reason, "not fitted")
	c, d, err = m.CalibrateLog(append(log, heardAt(3, "layout 1", "helm", helm+0.3, 2, "phone"), pressureAt(4, "layout 1", 3010, 60)), nil)
	require.NoError(t, err)
	require.Equal(t, nothing, d.Causes[0].Name)
	require.True(t, c.Residuals[2].Used)
	_, d, err = m.CalibrateLog(log, nil)
	require.NoError(t, err)
	require.Nil(t, d)
}

// With every engine stopped nothing is uncertain: a plan is made without a panic.
func TestSurveyWithNothingRunning(t *testing.T) {
	if got := (Belief{}).after(nil, 2); got.Mean != nil || got.Cov != nil {
		t.Errorf("nothing to learn, yet the belief changed to %+v", got)
	}
}
