package parts

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/boatfiletest"
	"hushwake/path/boatfile/layers"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/panel"
	"hushwake/path/report/form"
	"hushwake/path/report/reporttest"
	"hushwake/path/study/readings"
	"hushwake/path/study/sweep"
)

var demo = boatfiletest.Demo

// The document of a box is the box as the prediction has it, in SI; its heat parts add up, and units change words alone.
func TestBoxDocument(t *testing.T) {
	b := demo(t, "generator-box")
	all, err := UsedBoxes(b)
	require.NoError(t, err)
	x, err := NewBoxes(reporttest.Known(t, b, 400), all[0], all)
	require.NoError(t, err)
	d, a := x.Document().(Enclosure), x.Shown.box.Air
	assert.InDelta(t, a.Flow, *d.AirFlow, 1e-6)
	assert.InDelta(t, a.Rise, *d.Rise, 1e-6)
	assert.InDelta(t, all[0].box.Sound.DBA, *d.InsertionLossDBA, 1e-6)
	assert.LessOrEqual(t, *d.WallsW, *d.HeatW*(1+1e-9), "the walls carry a part of the heat")
	assert.Len(t, d.Others, len(all))
	imperial := x.Shown.Document(form.Units{System: quantity.Imperial})
	assert.Equal(t, d.AirFlow, imperial.AirFlow, "figures stay SI")
	assert.NotEqual(t, d.Changes, imperial.Changes, "words do not")
	_, err = UsedBoxes(demo(t, "three-quotes"))
	require.ErrorContains(t, err, "hint:")
}

// The box is shown as the readings leave it, in text and document, in every layout, and as reckoned where they are ignored.
func TestBoxAfterItsReading(t *testing.T) {
	b := demo(t, "generator-box")
	shown := func(o readings.Options) (*Boxes, *readings.Known, Enclosure) {
		all, err := UsedBoxes(b)
		require.NoError(t, err)
		o.N = 400
		k, err := readings.Know(b, o)
		require.NoError(t, err)
		x, err := NewBoxes(k, all[0], all)
		require.NoError(t, err)
		return x, k, x.Document().(Enclosure)
	}
	before, _, was := shown(readings.Options{Ignore: true})
	after, k, is := shown(readings.Options{})
	r := k.Fit.Residuals[4]
	require.True(t, r.Used)
	assert.InDelta(t, *r.Predicted-273.15, *was.RunningC, 1, "the median of 400 draws errs by some tenths of a kelvin")
	assert.InDelta(t, *r.After-273.15, *is.RunningC, 0.05)
	assert.Less(t, *is.RunningC, *was.RunningC-20)
	assert.Less(t, *is.HeatW, *was.HeatW)
	assert.Equal(t, is.Rise, is.Others[0].Rise, "the same in the list of layouts")
	assert.Equal(t, was.InsertionLoss, is.InsertionLoss, "its sound stays")
	assert.Contains(t, is.Verdicts[0].Text, fmt.Sprintf("warms by %.0f °C)", *is.RunningRise))
	assert.Contains(t, fmt.Sprint(after.Text(form.Units{}).Blocks), "The readings of the file count in it")
	assert.NotContains(t, fmt.Sprint(before.Text(form.Units{}).Blocks), "The readings of the file count in it")
}

// Over speed the power rises with the propeller law and the level of the document is that of the sweep.
func TestSweepDocument(t *testing.T) {
	b := demo(t, "three-quotes")
	seen := make(chan struct{}, 8)
	w, err := NewSpeedSweep(context.Background(), reporttest.Known(t, b, 400), b.Layouts[:1], Duties{At: []float64{1200, 1600}}, func(path.Prediction) { seen <- struct{}{} })
	require.NoError(t, err)
	assert.Len(t, seen, 2, "every prediction is told of")
	d := w.Document().(Sweep)
	require.Len(t, d.Layouts[0].Points, 2)
	low, high := d.Layouts[0].Points[0], d.Layouts[0].Points[1]
	assert.Greater(t, *high.Power, *low.Power)
	assert.Greater(t, *high.BackPressure, *low.BackPressure)
	assert.InDelta(t, w.swept[0].Points[0].Power, 1e3**low.Power, 1e-2, "kW of W")
	assert.InDelta(t, w.swept[0].Points[0].Listeners[0].Level, *low.Listeners[0].LevelDBA, 1e-3)
}

// At the running duty a sweep gives the figures of the comparison, by readings and by levels that were stated there, and says
// how both reach other duties. The points are solved between frequencies, within 0.01 dB(A).
func TestSweepMeetsTheComparison(t *testing.T) {
	for _, name := range []string{"dry-stack", "everything"} {
		b := demo(t, name)
		k := reporttest.Known(t, b, 400)
		l := b.Layouts[0]
		d := l.Engines[0].Running
		w, err := NewSpeedSweep(context.Background(), k, b.Layouts[:1], Duties{At: []float64{d.Speed - 1, d.Speed, d.Speed + 1}}, nil)
		require.NoError(t, err)
		points, p := w.swept[0].Points, k.At(l.Name)
		assert.InEpsilon(t, p.Exhausts[0].Running.BackPressure, points[1].BackPressure, 1e-9)
		for j, h := range p.Listeners[:len(b.Listeners)] {
			assert.InDelta(t, h.DBA(), points[1].Listeners[j].Level, 0.02, "%s at %s", name, h.Listener.Name)
			for _, beside := range []int{0, 2} {
				assert.InDelta(t, h.DBA(), points[beside].Listeners[j].Level, 0.2, "no jump beside it")
			}
		}
		notes := w.Document().(Sweep).Layouts[0].Notes
		assert.Contains(t, fmt.Sprint(notes), "Readings that count: ")
		assert.Equal(t, name == "everything", strings.Contains(fmt.Sprint(notes), "stated levels hold at"))
		for _, n := range notes {
			assert.Contains(t, fmt.Sprint(w.Text(form.Units{}).Blocks), strings.Fields(n)[0])
		}
	}
}

// A layout that compare asks about or refuses is marked in a sweep too, and has no firm figure where it is asked about.
func TestSweepMarksWhatCannotBeJudged(t *testing.T) {
	b := demo(t, "three-quotes")
	k := reporttest.Known(t, b, 400)
	swept := func() (*SpeedSweep, Swept, string) {
		w, err := NewSpeedSweep(context.Background(), k, b.Layouts[1:2], Duties{At: []float64{1600}}, nil)
		require.NoError(t, err)
		return w, w.Document().(Sweep).Layouts[0], fmt.Sprint(w.Text(form.Units{}).Blocks)
	}
	w, d, text := swept()
	assert.Equal(t, "ask first", d.Verdict)
	assert.NotEmpty(t, d.Why)
	assert.Nil(t, d.Points[0].BackPressure)
	assert.Nil(t, d.Points[0].Listeners[0].LevelDBA)
	assert.Contains(t, text, "ASK FIRST: ")
	assert.Contains(t, text, "no firm figure")
	row := w.Sheet()[1]
	assert.Equal(t, "ask first", row[len(row)-1])
	assert.Empty(t, row[len(row)-2])
	p := k.At(b.Layouts[1].Name)
	p.Questions, p.Refused = nil, true
	_, d, text = swept()
	assert.Equal(t, "refused", d.Verdict)
	assert.NotNil(t, d.Points[0].Listeners[0].LevelDBA)
	assert.Contains(t, text, "REFUSED: ")
	p.Refused = false
	_, d, text = swept()
	assert.Empty(t, d.Verdict)
	assert.NotContains(t, text, "REFUSED")
}

// A build-up of one leaf has its own mass, and none of what it lacks.
func TestBuildUpDocument(t *testing.T) {
	m := panel.Default()
	l, err := layers.Parse("6 mm glass", m)
	require.NoError(t, err)
	d := NewBuildUp(m, panel.BuildUp{l}).Document().(Panel)
	assert.InDelta(t, 15, *d.SurfaceMass, 0.3, "2500 kg/m3 of glass (EN 572-1)")
	assert.InDelta(t, 6, *d.Layers[0].ThicknessMM, 1e-9)
	assert.Nil(t, d.Price)
	assert.Nil(t, d.Resonance, "one leaf has no cavity")
}

func TestSourcesOfNothing(t *testing.T) {
	_, err := NewSources(&path.Boat{File: "x.yaml"})
	require.ErrorContains(t, err, "x.yaml holds no engines\nhint:")
	all, err := NewSources(demo(t, "three-quotes"))
	require.NoError(t, err)
	d := all.Document().(Source)
	assert.InDelta(t, all[0].result.Temperature, *d.Engines[0].Temperature+273.15, 1e-4)
	assert.InDelta(t, all[0].result.Duty.Power, 1e3**d.Engines[0].PowerKW, 1e-2)
}

// A boom says where, how much and why in the document.
func TestBoomDocument(t *testing.T) {
	d := newBoom(sweep.Boom{Speed: 1500, Listener: "helm", Rise: 4, Engine: "main", Order: 6, Frequency: 150, Loss: 3, Around: 12, Text: "avoid", From: 1400, To: 1600})
	assert.Equal(t, []float64{1500, 6, 150, 1400, 1600, 4, 3, 12}, []float64{*d.Speed, *d.Order, *d.Frequency, *d.From, *d.To, *d.Rise, *d.Loss, *d.Around})
	assert.Nil(t, newBoom(sweep.Boom{Speed: 1500}).Order, "no order explains it")
}
