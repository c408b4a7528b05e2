package onboard

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
)

// Calibrate is the prediction before and after the readings, and what moved.
type Calibrate struct {
	Terms       []Term     `json:"terms"`
	Residuals   []Residual `json:"residuals"`
	Before      Layouts    `json:"before"`
	After       Layouts    `json:"after"`
	Instruments []Bias     `json:"instruments"`
	Diagnosis   []string   `json:"diagnosis"`
	Warnings    []string   `json:"warnings"`
	Covers      []Cover    `json:"covers"`
}

// Cover is what a pair of readings, something open and shut, says of the ways to a seat.
type Cover struct {
	Reading   string      `json:"reading"`
	Unit      string      `json:"unit"`
	WorthDB   form.Number `json:"worth_db"`
	Structure form.Number `json:"structure"`
	AtMost    bool        `json:"structure_at_most"`
	Air       form.Number `json:"air"`
	Model     form.Number `json:"model_structure"`
	Text      string      `json:"text"`
}

// Layouts are the layouts at one of those times.
type Layouts struct {
	Layouts []report.Layout `json:"layouts"`
}

// Term is a cause of error that moved or narrowed.
type Term struct {
	Name      string      `json:"name"`
	Prior     form.Number `json:"prior"`
	Posterior form.Number `json:"posterior"`
	SDBefore  form.Number `json:"sd_before"`
	SDAfter   form.Number `json:"sd_after"`
	Unit      string      `json:"unit"`
	Key       string      `json:"key"`
}

// Residual is a reading beside the model.
type Residual struct {
	Reading    string      `json:"reading"`
	Measured   form.Number `json:"measured"`
	Predicted  form.Number `json:"predicted"`
	Residual   form.Number `json:"residual"`
	Used       bool        `json:"used"`
	Reason     string      `json:"reason"`
	Unit       string      `json:"unit"`
	After      form.Number `json:"after"`
	Struck     bool        `json:"struck"`
	Deviations form.Number `json:"deviations"` // off what was to be expected before any reading
}

// Bias is by how much an instrument reads too much.
type Bias struct {
	Instrument string      `json:"instrument"`
	Mean       form.Number `json:"mean"`
	SDBefore   form.Number `json:"sd_before"`
	SDAfter    form.Number `json:"sd_after"`
}

// Calibrated is the work before and after the readings.
type Calibrated struct {
	*report.Comparison
	boat   *path.Boat // without places that only readings name
	before []path.Prediction
	fit    *readings.Calibration
	// changed says what most likely changed between readings that were taken twice in the same way.
	changed []string
}

// NewCalibrated shows what is known of a boat before and after its readings.
func NewCalibrated(b *path.Boat, known *readings.Known) (*Calibrated, error) {
	switch {
	case len(b.Readings) == 0:
		return nil, fmt.Errorf("%s holds no readings\nhint: 'hushwake survey %s' lists what to measure and how", b.File, form.File(b.File))
	case known.Fit == nil:
		return nil, fmt.Errorf("the readings of %s are ignored, there is nothing to calibrate to\nhint: leave out --ignore-readings", b.File)
	case known.Refused != nil:
		return nil, known.Refused
	}
	w, err := report.NewComparison(known.Boat, known.Boat.Layouts, 0, known)
	if err != nil {
		return nil, err
	}
	k := &Calibrated{Comparison: w, boat: b, fit: known.Fit}
	for i := range known.Central {
		p, err := known.Before.Middle(known.Central[i])
		if err != nil {
			return nil, &form.Failure{Err: err}
		}
		k.before = append(k.before, p)
	}
	if known.Changed != nil {
		k.changed = known.Changed.Sentences()
	}
	return k, nil
}

// Document is what moved, and the layouts before and after.
func (k *Calibrated) Document() any {
	d := Calibrate{Diagnosis: form.List(k.changed),
		Warnings: form.List(append(append([]string{}, k.Warned()...), k.fit.Warnings...))}
	d.Terms = form.Each(k.fit.Terms, func(t draws.Moved) Term {
		return Term{t.Name, form.Num(t.Prior), form.Num(t.Posterior), form.Num(t.SDBefore), form.Num(t.SDAfter), t.Unit, t.Key}
	})
	d.Residuals = form.Each(k.fit.Residuals, func(r readings.Residual) Residual {
		return Residual{k.readingName(r), form.NumOr(r.Measured, 1), form.NumOr(r.Predicted, 1), form.NumOr(r.Residual, 1), r.Used, r.Reason, r.Unit, form.NumOr(r.After, 1), r.Struck, form.Num(r.Standardised)}
	})
	d.Instruments = form.Each(k.fit.Instruments, func(i readings.Bias) Bias {
		return Bias{i.Instrument, form.Num(i.Mean), form.Num(i.SDBefore), form.Num(i.SDAfter)}
	})
	d.Covers = form.Each(k.fit.Covers, func(p readings.Parted) Cover {
		return Cover{p.What, p.Unit, form.Num(p.Worth), form.Num(p.Structure), p.Bound, airLevel(p), form.Num(p.Model), p.Text()}
	})
	d.Before.Layouts = keepListeners(report.LayoutsOf(k.before, k.Uncorrected()), len(k.boat.Listeners))
	d.After.Layouts = keepListeners(k.Layouts(), len(k.boat.Listeners))
	return d
}

// airLevel is null where it is not told, or where nothing comes by air.
func airLevel(p readings.Parted) form.Number {
	if p.Air == nil {
		return nil
	}
	return form.Level(*p.Air)
}

// keepListeners drops the listeners that were only added for readings in a space.
func keepListeners(ls []report.Layout, n int) []report.Layout {
	for i := range ls {
		ls[i].Listeners = ls[i].Listeners[:n]
	}
	return ls
}

// Sheet has a row for each layout and listener.
func (k *Calibrated) Sheet() form.Sheet {
	out := form.Sheet{{"layout", "listener", "before_dba", "before_low_dba", "before_high_dba", "after_dba", "after_low_dba", "after_high_dba"}}
	for i := range k.Predictions {
		for j := range k.boat.Listeners {
			x, y := k.Uncorrected().Layouts[i].Listeners[j], k.Spread.Layouts[i].Listeners[j]
			out.Add(k.Predictions[i].Layout.Name, k.boat.Listeners[j].Name, form.Field(form.Level(x.Level)), form.Field(form.Level(x.Low)),
				form.Field(form.Level(x.High)), form.Field(form.Level(y.Level)), form.Field(form.Level(y.Low)), form.Field(form.Level(y.High)))
		}
	}
	return out
}

// Text shows the readings against the model, the levels before and after, and what moved.
func (k *Calibrated) Text(u form.Units) *form.Text {
	t := &form.Text{}
	t.Say("", "%s", k.boat.Text)
	for i := range k.Predictions {
		for _, f := range k.Predictions[i].Findings {
			if readings.Measured(f) {
				t.Blank()
				t.Say("danger: ", "%s", k.Predictions[i].Layout.Name+": "+u.Local(f.Text+" "+form.Sentence(f.Action)))
			}
		}
	}
	t.Line("\nReadings against the model:\n")
	t.Table(k.residuals(u))
	if len(k.fit.Covers) > 0 {
		t.Line("\nOpen against shut:\n")
		for _, p := range k.fit.Covers {
			t.Say("  - ", "%s", u.Local(form.Sentence(p.Text())))
		}
	}
	t.Line("\nLevels before and after, dB(A) with their bands:\n")
	t.Table(k.levels())
	t.Line("\nWhat moved or narrowed most:\n")
	t.Table(k.causes())
	for _, w := range append(k.Known.Remarks(), k.fit.Warnings...) {
		t.Say("note: ", "%s", u.Local(w))
	}
	if len(k.changed) > 0 {
		t.Line("\nAgainst the readings logged before:\n")
		for _, line := range k.changed {
			t.Say("  - ", "%s", u.Local(line))
		}
	}
	t.Blank()
	t.Say("", "To the ear 3 dB is barely a difference; how loud it is heard is told by sones in 'hushwake compare'. "+report.Closing)
	return t
}

func (k *Calibrated) residuals(u form.Units) *form.Table {
	t := form.NewTable("reading", ">measured", ">model before", ">model after", "used", "why")
	for _, r := range k.fit.Residuals {
		used := "yes"
		switch {
		case r.Struck:
			used = "struck"
		case !r.Used:
			used = "no"
		}
		name, unit := k.readingName(r), r.Unit
		if scale, octave, ok := strings.Cut(unit, " relative at "); ok {
			name, unit = name+", "+octave, scale+" relative"
		}
		t.Add(name, u.Reading(r.Measured, unit), u.Reading(r.Predicted, unit), u.Reading(r.After, unit), used, u.Local(r.Reason))
	}
	return t
}

func (k *Calibrated) levels() *form.Table {
	t := form.NewTable("layout", "listener", ">before", ">after", ">moved by")
	for _, i := range k.Order(0) {
		for j := range k.boat.Listeners {
			x, y := k.Uncorrected().Layouts[i].Listeners[j], k.Spread.Layouts[i].Listeners[j]
			t.Add(k.Predictions[i].Layout.Name, k.boat.Listeners[j].Name, form.LevelText(x.Level, x.Low, x.High),
				form.LevelText(y.Level, y.Low, y.High), moved(y.Level-x.Level))
		}
	}
	return t
}

// moved is by how much a level moved; nothing where it can't be judged.
func moved(db float64) string {
	if math.IsNaN(db) {
		return "-"
	}
	return fmt.Sprintf("%+.1f dB", db)
}

// causesShown is how many causes the table holds.
const causesShown = 12

func (k *Calibrated) causes() *form.Table {
	t := form.NewTable("cause", "of", ">from", ">to", ">doubt before", ">doubt after")
	for i, m := range k.fit.Terms {
		if i >= causesShown {
			break
		}
		t.Add(m.Name, m.Of(), termText(m.Prior, m.Unit), termText(m.Posterior, m.Unit), "±"+termText(m.SDBefore, m.Unit), "±"+termText(m.SDAfter, m.Unit))
	}
	return t
}

// readingName says where, and what was open and how fast the engine ran where that was stated.
func (k *Calibrated) readingName(r readings.Residual) string {
	name := r.What
	for _, x := range k.boat.Readings {
		if x.Index != r.Reading {
			continue
		}
		if len(x.Open) > 0 {
			name += ", open: " + strings.Join(x.Open, ", ")
		}
		if x.RunSpeed > 0 {
			name += fmt.Sprintf(", at %.0f rpm", x.RunSpeed)
		}
	}
	return name
}

// termText prints a cause in dB, or a relative one in per cent.
func termText(v float64, unit string) string {
	if unit == "relative" {
		return fmt.Sprintf("%.0f %%", 100*v)
	}
	return fmt.Sprintf("%.1f %s", v, unit)
}
