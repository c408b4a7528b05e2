package readings

import (
	"errors"
	"math"
	rand "math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/draws/drawstest"
	"hushwake/source/spectrum"
)

func f(v float64) *float64 { return &v }

func calibrated(t testing.TB, m *draws.Model, readings ...path.Reading) Calibration {
	t.Helper()
	c, err := Calibrate(m, readings, nil)
	require.NoError(t, err)
	return c
}

// oneTerm is a boat with one flat term of sd s: the update has a closed form.
func oneTerm(t *testing.T, s float64) *draws.Model {
	h := path.Heard{Listener: path.Listener{Name: "helm"}, Routes: []path.Route{{Bands: drawstest.ExhaustBands,
		Steps: []path.Step{{Uncertain: []path.Uncertain{drawstest.Uncertain("source level", "s", s)}}}}}}
	return model(t, []path.Prediction{{Layout: &path.Layout{Name: "a"}, Listeners: []path.Heard{h}}})
}

func TestOneReadingOfOneTermInClosedForm(t *testing.T) {
	// Conjugate normal update: mean s^2/(s^2+e^2) of the misfit, variance s^2 e^2/(s^2+e^2).
	m := oneTerm(t, 5)
	level := drawstest.ExhaustBands.DBA()
	c := calibrated(t, m, drawstest.HeardAt(1, "a", "helm", level+4, 2, "phone"))
	require.InDelta(t, level+4*25.0/29, c.After[0].Level, 1e-6)
	require.InDelta(t, math.Sqrt(25.0*4/29), c.After[0].SD, 1e-6)
	require.InDelta(t, 5, c.Terms[0].SDBefore, 1e-9)
	require.InDelta(t, 4*25.0/29, c.Terms[0].Posterior, 1e-6)
	require.InDelta(t, 4, *c.Residuals[0].Measured-*c.Residuals[0].Predicted, 1e-9)
	require.InDelta(t, 4-4*25.0/29, *c.Residuals[0].Residual, 1e-6)
}

func TestTenEqualReadingsDoNotShrinkTheBias(t *testing.T) {
	m := oneTerm(t, 5)
	level := drawstest.ExhaustBands.DBA() + 3
	var ten, others []path.Reading
	for i := range 10 {
		ten = append(ten, drawstest.HeardAt(i+1, "a", "helm", level, 2, "phone"))
		others = append(others, drawstest.HeardAt(i+1, "a", "helm", level, 2, string(rune('a'+i))))
	}
	bias, repeat := SplitError(2)
	c := calibrated(t, m, ten...)
	e2 := bias*bias + repeat*repeat/10 // closed form: the bias stays, the repeat error averages out
	require.InDelta(t, math.Sqrt(25*e2/(25+e2)), c.After[0].SD, 1e-6)
	require.Greater(t, c.After[0].SD, 0.9*bias)
	require.Greater(t, c.Instruments[0].SDAfter, 0.9*bias)
	free := calibrated(t, m, others...)
	require.Less(t, free.After[0].SD, 0.5*c.After[0].SD)
}

func TestOrderOfReadingsDoesNotMatter(t *testing.T) {
	m := model(t, drawstest.Boat(3, 2))
	list := []path.Reading{drawstest.HeardAt(1, "layout 1", "helm", 82, 2, "phone"), drawstest.HeardAt(2, "layout 2", "deck", 73, 2, "phone"),
		drawstest.HeardAt(3, "layout 1", "cabin", 64, 1.5, "other phone"), drawstest.PressureAt(4, "layout 1", 3600, 100)}
	c := calibrated(t, m, list...)
	r := calibrated(t, m, list[2], list[0], list[3], list[1])
	require.Equal(t, c.Belief.Mean, r.Belief.Mean)
	require.True(t, mat.Equal(c.Belief.Cov, r.Belief.Cov))
}

func TestInfiniteErrorChangesNothing(t *testing.T) {
	m := model(t, drawstest.Boat(3, 2))
	one := drawstest.HeardAt(1, "layout 1", "helm", 82, 2, "phone")
	c := calibrated(t, m, one)
	d := calibrated(t, m, one, drawstest.HeardAt(2, "layout 2", "helm", 40, math.Inf(1), "ear"))
	require.Equal(t, c.Belief.Mean, d.Belief.Mean)
	require.False(t, d.Residuals[1].Used)
	none := calibrated(t, m, drawstest.HeardAt(1, "layout 1", "helm", 40, math.Inf(1), "ear"))
	for _, v := range none.Belief.Mean {
		require.Zero(t, v)
	}
	require.NotEmpty(t, none.Warnings)
	for i := range none.Before {
		require.InDelta(t, none.Before[i].SD, none.After[i].SD, 1e-12)
	}
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

func TestUnknownPlacesAreRefusedWithAHint(t *testing.T) {
	m := model(t, drawstest.Boat(2, 0))
	for _, r := range []path.Reading{drawstest.HeardAt(1, "layout 9", "helm", 80, 2, ""), drawstest.HeardAt(1, "layout 1", "mast", 80, 2, ""),
		{Index: 1, Layout: "layout 1", Engine: "port", BackPress: new(float64)}, drawstest.HeardAt(1, "", "helm", 80, 2, "")} {
		_, err := Calibrate(m, []path.Reading{r}, nil)
		require.ErrorContains(t, err, "hint: name one of")
	}
	bad := drawstest.HeardAt(1, "layout 1", "helm", 80, 2, "")
	bad.Weighting = "B"
	_, err := Calibrate(m, []path.Reading{bad}, nil)
	require.ErrorContains(t, err, "weighting")
}

func TestPressureReadingMovesFlowAndLoss(t *testing.T) {
	m := model(t, drawstest.Boat(2, 0))
	c := calibrated(t, m, drawstest.PressureAt(1, "layout 1", 3000*1.2, 90))
	s, err := m.MonteCarlo(c.Belief, draws.Options{})
	require.NoError(t, err)
	prior, _ := m.MonteCarlo(m.Prior(), draws.Options{})
	// The other layout shares the causes, so it moves as well and its band narrows.
	require.Greater(t, s.Layouts[1].Exhausts[0].Rated, 6000*1.15)
	require.Less(t, s.Layouts[1].Exhausts[0].High/s.Layouts[1].Exhausts[0].Low, prior.Layouts[1].Exhausts[0].High/prior.Layouts[1].Exhausts[0].Low)
	for _, v := range c.Terms {
		if v.Name == "flow" || v.Name == "element loss" {
			require.Positive(t, v.Posterior)
			require.Less(t, v.SDAfter, v.SDBefore)
		}
	}
	kelvin := 550 * 1.05
	hot := path.Reading{Index: 1, Layout: "layout 1", Engine: "main", Temp: &kelvin, PlusMinus: 5}
	h := calibrated(t, m, hot)
	require.Equal(t, "temperature", h.Terms[0].Name)
	require.Positive(t, h.Terms[0].Posterior)
}

func TestOutlierIsNamedAndLeftOut(t *testing.T) {
	m := model(t, drawstest.Boat(2, 0))
	truth := m.Propagate(m.Prior())
	good := []path.Reading{drawstest.HeardAt(1, "layout 1", "helm", truth[0].Level+1, 2, "phone"), drawstest.HeardAt(2, "layout 1", "deck", truth[1].Level+1, 2, "phone")}
	bad := drawstest.HeardAt(3, "layout 1", "cabin", truth[2].Level-36, 2, "phone") // 48 typed for 84
	with := calibrated(t, m, append(good, bad)...)
	require.False(t, with.Residuals[2].Used)
	require.Contains(t, with.Residuals[2].Reason, "outlier")
	require.True(t, with.Residuals[0].Used)
	require.InDeltaSlice(t, calibrated(t, m, good...).Belief.Mean, with.Belief.Mean, 1e-9)
}

func TestBandsAndCReadingsAgreeWithTheModelTheyCameFrom(t *testing.T) {
	m := model(t, drawstest.Boat(2, 1))
	z := make([]float64, len(m.Terms))
	z[0], z[1], z[2] = 1, -0.7, 0.5
	h := m.Layouts[0].Listeners[0]
	bands, c := h.Bands(z), h.Level(z, spectrum.C)
	readings := []path.Reading{{Index: 1, Layout: "layout 1", Listener: "helm", Bands: &bands, PlusMinus: .2, Instrument: "meter"},
		{Index: 2, Layout: "layout 1", Listener: "helm", Level: &c, Weighting: "C", PlusMinus: .2, Instrument: "meter"}}
	out := calibrated(t, m, readings...)
	require.Len(t, out.Residuals, 10)
	require.InDelta(t, h.Level(z, spectrum.A), out.After[0].Level, 0.2)
	for _, r := range out.Residuals {
		require.Less(t, math.Abs(*r.Residual), 0.5)
	}
}

func TestBandsBesideALevelAreReadTheWayThatAddsUp(t *testing.T) {
	m := model(t, drawstest.Boat(1, 0))
	plain := m.Layouts[0].Listeners[0].Bands(nil)
	level := plain.DBA()
	weighted := plain.Plus(spectrum.A)
	for _, b := range []spectrum.Bands{plain, weighted} {
		c := calibrated(t, m, path.Reading{Index: 1, Layout: "layout 1", Listener: "helm", Level: &level, Bands: &b, Weighting: "A", PlusMinus: 1})
		require.Len(t, c.Residuals, 9)
		for _, r := range c.Residuals {
			require.InDelta(t, *r.Predicted, *r.Measured, 1e-9)
		}
	}
	huge := calibrated(t, m, drawstest.HeardAt(1, "layout 1", "helm", 60, 1e300, "phone"))
	require.False(t, huge.Residuals[0].Used)
	require.Zero(t, huge.Residuals[0].Standardised)
}

func TestPredictorServesTheReadingsOwnDuty(t *testing.T) {
	all := drawstest.Boat(2, 0)
	m := model(t, all)
	r := drawstest.HeardAt(1, "layout 1", "helm", 80, 2, "phone")
	r.Open = []string{"door"}
	_, err := Calibrate(m, []path.Reading{r}, nil)
	require.Error(t, err)
	predict := func(layout string, r path.Reading) (path.Prediction, error) {
		p := drawstest.Boat(1, 0)[0]
		h := &p.Listeners[0]
		h.Routes[0].Bands = h.Routes[0].Bands.Shift(6)
		h.Routes[0].Steps = append(h.Routes[0].Steps, path.Step{Uncertain: []path.Uncertain{drawstest.Uncertain("panel", "open door", 1)}})
		return p, nil
	}
	c, err := Calibrate(m, []path.Reading{r}, predict)
	require.NoError(t, err)
	require.Greater(t, *c.Residuals[0].Predicted, m.Propagate(m.Prior())[0].Level+3)
	_, err = Calibrate(m, []path.Reading{r}, func(string, path.Reading) (path.Prediction, error) {
		return path.Prediction{}, errors.New("no such door")
	})
	require.ErrorContains(t, err, "no such door")
}

// TestSyntheticTruth draws true boats from the stated deviations, measures them with an instrument
// drawn from its stated error, and counts how often the 80 % band holds the truth.
func TestSyntheticTruth(t *testing.T) {
	const boats = 200
	m := model(t, drawstest.Boat(3, 2))
	prior, err := m.MonteCarlo(m.Prior(), draws.Options{N: 4000})
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(2024, 1))
	before, after, cases := 0, 0, 0
	for range boats {
		z := make([]float64, len(m.Terms))
		for k := range z {
			z[k] = r.NormFloat64()
		}
		bias, repeat := SplitError(2)
		seen := m.Layouts[0].Listeners[0].Level(z, spectrum.A) + bias*r.NormFloat64() + repeat*r.NormFloat64()
		c := calibrated(t, m, drawstest.HeardAt(1, "layout 1", "helm", seen, 2, "phone"))
		post, err := m.MonteCarlo(c.Belief, draws.Options{N: 1000})
		require.NoError(t, err)
		for i, l := range m.Layouts {
			for j, h := range l.Listeners {
				truth := h.Level(z, spectrum.A)
				cases++
				if a := prior.Layouts[i].Listeners[j]; a.Low <= truth && truth <= a.High {
					before++
				}
				if a := post.Layouts[i].Listeners[j]; a.Low <= truth && truth <= a.High {
					after++
				}
			}
		}
	}
	require.InDelta(t, 80, 100*float64(before)/float64(cases), 6)
	require.InDelta(t, 80, 100*float64(after)/float64(cases), 6)
	t.Logf("covered before %.1f %%, after %.1f %% of %d", 100*float64(before)/float64(cases), 100*float64(after)/float64(cases), cases)
}

func TestOneHelmReadingCutsTheSpreadOfTheOthersByAThird(t *testing.T) {
	all := drawstest.Boat(3, 0)
	for i := range all { // the stated case: a shared source of 5 dB, a separate deviation of 2.5 dB
		for j := range all[i].Listeners {
			r := drawstest.OutletRoute(all[i].Layout.Name, 6*float64(i), 10, 2.5)
			r.Steps[0].Uncertain = []path.Uncertain{drawstest.Uncertain("source level", "source level/main", 5)}
			r.Steps[2].Uncertain = []path.Uncertain{drawstest.Uncertain("directivity", "directivity/main", 2)}
			all[i].Listeners[j].Routes = []path.Route{r}
		}
	}
	m := model(t, all)
	c := calibrated(t, m, drawstest.HeardAt(1, "layout 1", "helm", c0(m)+3, 2, "phone"))
	for i := range c.Before {
		if c.Before[i].Listener == "helm" && c.Before[i].Layout != "layout 1" {
			require.LessOrEqual(t, c.After[i].SD, c.Before[i].SD*2/3, c.Before[i].Layout)
		}
	}
}

func c0(m *draws.Model) float64 { return m.Propagate(m.Prior())[0].Level }

// Of a meter's stated 2 dB half differs from reading to reading and the rest, 1.73 dB, is a bias all share: the mean
// of many readings keeps it.
func TestHalfOfAnErrorRepeats(t *testing.T) {
	bias, repeat := SplitError(2)
	require.InDelta(t, 1, repeat, 1e-12)
	require.InDelta(t, math.Sqrt(3), bias, 1e-12)
}

// A reading 3.1 deviations off is named and kept, one 3.7 off still is, one 4.3 off is left out.
func TestOutliersAreLeftOutOverFourDeviations(t *testing.T) {
	f := &fit{}
	for _, off := range []float64{3.7, -3.7} {
		f.obs = []*observation{{standardised: off}}
		require.Nil(t, f.worst())
	}
	for _, off := range []float64{4.3, -4.3} {
		f.obs = []*observation{{standardised: off}, {standardised: 1}}
		require.Same(t, f.obs[0], f.worst())
	}
	said := func(off float64) string {
		o := &observation{standardised: off, note: "used", restore: func(v float64) float64 { return v }, model: func([]float64) float64 { return 60 }}
		return f.residual(o, path.Reading{}).Reason
	}
	require.Equal(t, "used", said(-2.9))
	require.Contains(t, said(-3.1), "odd: 3.1 deviations")
}
