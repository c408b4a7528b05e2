package report

import (
	"fmt"
	"regexp"
	"strings"

	"hushwake/path"
	"hushwake/path/study"
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
	Reading   string `json:"reading"`
	Unit      string `json:"unit"`
	WorthDB   Number `json:"worth_db"`
	Structure Number `json:"structure"`
	AtMost    bool   `json:"structure_at_most"`
	Air       Number `json:"air"`
	Model     Number `json:"model_structure"`
	Text      string `json:"text"`
}

// Layouts are the layouts at one of those times.
type Layouts struct {
	Layouts []Layout `json:"layouts"`
}

// Term is a cause of error that moved or narrowed.
type Term struct {
	Name      string `json:"name"`
	Prior     Number `json:"prior"`
	Posterior Number `json:"posterior"`
	SDBefore  Number `json:"sd_before"`
	SDAfter   Number `json:"sd_after"`
	Unit      string `json:"unit"`
	Key       string `json:"key"`
}

// Residual is a reading beside the model.
type Residual struct {
	Reading   string `json:"reading"`
	Measured  Number `json:"measured"`
	Predicted Number `json:"predicted"`
	Residual  Number `json:"residual"`
	Used      bool   `json:"used"`
	Reason    string `json:"reason"`
	Unit      string `json:"unit"`
	After     Number `json:"after"`
}

// Bias is by how much an instrument reads too much.
type Bias struct {
	Instrument string `json:"instrument"`
	Mean       Number `json:"mean"`
	SDBefore   Number `json:"sd_before"`
	SDAfter    Number `json:"sd_after"`
}

// Calibrated is the work before and after the readings.
type Calibrated struct {
	boat   *path.Boat
	before *Comparison
	after  study.Spread
	fit    study.Calibration
	// changed says what most likely changed between readings that were taken twice in the same way.
	changed []string
}

// NewCalibrated fits the model of the boat to its readings.
func NewCalibrated(b *path.Boat, draws study.Draws) (*Calibrated, error) {
	if len(b.Readings) == 0 {
		return nil, fmt.Errorf("%s holds no readings\nhint: 'hushwake survey %s' lists what to measure and how", b.File, b.File)
	}
	wide := b.WithSpaceReadings()
	usable, left, err := sortReadings(wide)
	if err != nil {
		return nil, err
	}
	before, err := NewComparison(wide, wide.Layouts, 0, draws)
	if err != nil {
		return nil, err
	}
	fit, changed, err := before.Model.CalibrateLog(usable, predictor(wide))
	if err != nil {
		return nil, err
	}
	merge(&fit, left)
	after, err := before.Model.MonteCarlo(fit.Belief, draws)
	if err != nil {
		return nil, &Failure{err}
	}
	k := &Calibrated{boat: b, before: before, after: after, fit: fit}
	if changed != nil {
		k.changed = changed.Sentences()
	}
	return k, nil
}

// predictor predicts a layout as it was when a reading was taken.
func predictor(b *path.Boat) study.Predictor {
	return func(layout string, r path.Reading) (path.Prediction, error) {
		l, ok := b.Layout(layout)
		if !ok {
			return path.Prediction{}, fmt.Errorf("no layout %q in the file", layout)
		}
		as, err := l.ForReading(r)
		if err != nil {
			return path.Prediction{}, err
		}
		return path.Predict(b, as)
	}
}

// Warnings are those of the layouts.
func (k *Calibrated) Warnings(u Units) []string { return k.before.Warnings(u) }

// Document is what moved, and the layouts before and after.
func (k *Calibrated) Document() any {
	d := Calibrate{Diagnosis: list(k.changed),
		Warnings: list(append(append([]string{}, k.before.warnings()...), k.fit.Warnings...))}
	d.Terms = each(k.fit.Terms, func(t study.Moved) Term {
		return Term{t.Name, num(t.Prior), num(t.Posterior), num(t.SDBefore), num(t.SDAfter), t.Unit, t.Key}
	})
	d.Residuals = each(k.fit.Residuals, func(r study.Residual) Residual {
		return Residual{k.readingName(r), numOr(r.Measured, 1), numOr(r.Predicted, 1), numOr(r.Residual, 1), r.Used, r.Reason, r.Unit, numOr(r.After, 1)}
	})
	d.Instruments = each(k.fit.Instruments, func(i study.Bias) Bias { return Bias{i.Instrument, num(i.Mean), num(i.SDBefore), num(i.SDAfter)} })
	d.Covers = each(k.fit.Covers, func(p study.Parted) Cover {
		return Cover{p.What, p.Unit, num(p.Worth), num(p.Structure), p.Bound, airLevel(p), num(p.Model), p.Text()}
	})
	d.Before.Layouts = keepListeners(layoutsOf(k.before.Predictions, k.before.Spread), len(k.boat.Listeners))
	d.After.Layouts = keepListeners(layoutsOf(k.before.Predictions, k.after), len(k.boat.Listeners))
	return d
}

// airLevel is null where it is not told, or where nothing comes by air.
func airLevel(p study.Parted) Number {
	if p.Air == nil {
		return nil
	}
	return level(*p.Air)
}

// keepListeners drops the listeners that were only added for readings in a space.
func keepListeners(ls []Layout, n int) []Layout {
	for i := range ls {
		ls[i].Listeners = ls[i].Listeners[:n]
	}
	return ls
}

// Sheet has a row for each layout and listener.
func (k *Calibrated) Sheet() Sheet {
	out := Sheet{{"layout", "listener", "before_dba", "before_low_dba", "before_high_dba", "after_dba", "after_low_dba", "after_high_dba"}}
	for i := range k.before.Predictions {
		for j := range k.boat.Listeners {
			x, y := k.before.Spread.Layouts[i].Listeners[j], k.after.Layouts[i].Listeners[j]
			out.add(k.before.Predictions[i].Layout.Name, k.boat.Listeners[j].Name, field(level(x.Level)), field(level(x.Low)),
				field(level(x.High)), field(level(y.Level)), field(level(y.Low)), field(level(y.High)))
		}
	}
	return out
}

// Text shows the readings against the model, the levels before and after, and what moved.
func (k *Calibrated) Text(u Units) *Text {
	t := &Text{}
	t.say("", "%s", k.boat.Text)
	t.line("\nReadings against the model:\n")
	t.table(k.residuals(u))
	if len(k.fit.Covers) > 0 {
		t.line("\nOpen against shut:\n")
		for _, p := range k.fit.Covers {
			t.say("  - ", "%s", u.local(sentence(p.Text())))
		}
	}
	t.line("\nLevels before and after, dB(A) with their bands:\n")
	t.table(k.levels())
	t.line("\nWhat moved or narrowed most:\n")
	t.table(k.causes())
	for _, w := range k.fit.Warnings {
		t.say("note: ", "%s", u.local(w))
	}
	if len(k.changed) > 0 {
		t.line("\nAgainst the readings logged before:\n")
		for _, line := range k.changed {
			t.say("  - ", "%s", u.local(line))
		}
	}
	t.blank()
	t.say("", "To the ear 3 dB is barely a difference; 10 dB is about half or twice as loud. "+closing)
	return t
}

func (k *Calibrated) residuals(u Units) *Table {
	t := newTable("reading", ">measured", ">model before", ">model after", "used", "why")
	for _, r := range k.fit.Residuals {
		used := "yes"
		if !r.Used {
			used = "no"
		}
		t.add(k.readingName(r), u.reading(r.Measured, r.Unit), u.reading(r.Predicted, r.Unit), u.reading(r.After, r.Unit), used, u.local(r.Reason))
	}
	return t
}

func (k *Calibrated) levels() *Table {
	t := newTable("layout", "listener", ">before", ">after", ">moved by")
	for _, i := range k.before.order(0) {
		for j := range k.boat.Listeners {
			x, y := k.before.Spread.Layouts[i].Listeners[j], k.after.Layouts[i].Listeners[j]
			t.add(k.before.Predictions[i].Layout.Name, k.boat.Listeners[j].Name, levelText(x.Level, x.Low, x.High),
				levelText(y.Level, y.Low, y.High), fmt.Sprintf("%+.1f dB", y.Level-x.Level))
		}
	}
	return t
}

// causesShown is how many causes the table holds.
const causesShown = 12

func (k *Calibrated) causes() *Table {
	t := newTable("cause", "of", ">from", ">to", ">doubt before", ">doubt after")
	for i, m := range k.fit.Terms {
		if i >= causesShown {
			break
		}
		t.add(m.Name, shared(m), termText(m.Prior, m.Unit), termText(m.Posterior, m.Unit), "±"+termText(m.SDBefore, m.Unit), "±"+termText(m.SDAfter, m.Unit))
	}
	return t
}

// readingName says where, and what was open and how fast the engine ran where that was stated.
func (k *Calibrated) readingName(r study.Residual) string {
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

// shared names what a cause belongs to, without its own name and without marks of the program.
func shared(m study.Moved) string {
	var parts []string
	for _, p := range strings.Split(m.Key, "/") {
		if p != m.Name && !mark.MatchString(p) {
			parts = append(parts, p)
		}
	}
	return strings.Join(parts, ", ")
}

// mark is the fingerprint of an element that has no name.
var mark = regexp.MustCompile(`^[0-9a-f]{16}$`)

// termText prints a cause in dB, or a relative one in per cent.
func termText(v float64, unit string) string {
	if unit == "relative" {
		return fmt.Sprintf("%.0f %%", 100*v)
	}
	return fmt.Sprintf("%.1f %s", v, unit)
}
