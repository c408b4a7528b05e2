package main

import (
	"encoding/csv"
	"fmt"
	"regexp"
	"strings"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
)

type calibrateDoc struct {
	Terms       []termDoc     `json:"terms"`
	Residuals   []residualDoc `json:"residuals"`
	Before      layoutsDoc    `json:"before"`
	After       layoutsDoc    `json:"after"`
	Instruments []biasDoc     `json:"instruments"`
	Diagnosis   []string      `json:"diagnosis"`
	Warnings    []string      `json:"warnings"`
	Covers      []coverDoc    `json:"covers"`
}

// coverDoc is what a pair of readings, something open and shut, says of the ways to a seat.
type coverDoc struct {
	Reading   string `json:"reading"`
	Unit      string `json:"unit"`
	WorthDB   number `json:"worth_db"`
	Structure number `json:"structure"`
	AtMost    bool   `json:"structure_at_most"`
	Air       number `json:"air"`
	Model     number `json:"model_structure"`
	Text      string `json:"text"`
}

type layoutsDoc struct {
	Layouts []layoutDoc `json:"layouts"`
}

type termDoc struct {
	Name      string `json:"name"`
	Prior     number `json:"prior"`
	Posterior number `json:"posterior"`
	SDBefore  number `json:"sd_before"`
	SDAfter   number `json:"sd_after"`
	Unit      string `json:"unit"`
	Key       string `json:"key"`
}

type residualDoc struct {
	Reading   string `json:"reading"`
	Measured  number `json:"measured"`
	Predicted number `json:"predicted"`
	Residual  number `json:"residual"`
	Used      bool   `json:"used"`
	Reason    string `json:"reason"`
	Unit      string `json:"unit"`
	After     number `json:"after"`
}

type biasDoc struct {
	Instrument string `json:"instrument"`
	Mean       number `json:"mean"`
	SDBefore   number `json:"sd_before"`
	SDAfter    number `json:"sd_after"`
}

type calibrateOptions struct {
	*common
	draws  draws.Options
	record string // file of the case to be written; "" = none
	force  bool
}

func newCalibrate(c *common) *cobra.Command {
	o := &calibrateOptions{common: c}
	cmd := &cobra.Command{
		Use:   "calibrate FILE",
		Short: "Combines the readings of the file with the model: the corrected prediction and what moved",
		Args:  fileArgument,
		RunE: func(_ *cobra.Command, args []string) error {
			if o.record != "" {
				return o.writeRecord(args[0])
			}
			return o.run(args[0])
		},
	}
	drawFlags(cmd.Flags(), &o.draws)
	cmd.Flags().StringVar(&o.record, "record", "", "show and write the boat and its readings as a case for the record, without names")
	cmd.Flags().BoolVar(&o.force, "force", false, "replace an existing file of --record")
	return cmd
}

// calibrated is the work before and after the readings.
type calibrated struct {
	before *worked
	after  draws.Spread
	fit    readings.Calibration
	// changed says what most likely changed between readings that were taken twice in the same way.
	changed []string
}

// calibrate fits the model of the boat to its readings.
func calibrate(b *path.Boat, draws draws.Options) (*calibrated, error) {
	if len(b.Readings) == 0 {
		return nil, badInput("%s holds no readings\nhint: 'hushwake survey %s' lists what to measure and how", b.File, b.File)
	}
	wide := b.WithSpaceReadings()
	usable, left, err := sortReadings(wide)
	if err != nil {
		return nil, badInput("%w", err)
	}
	before, err := work(wide, selection{draws: draws})
	if err != nil {
		return nil, err
	}
	fit, changed, err := readings.CalibrateLog(before.model, usable, predictor(wide))
	if err != nil {
		return nil, badInput("%w", err)
	}
	merge(&fit, left)
	after, err := before.model.MonteCarlo(fit.Belief, draws)
	if err != nil {
		return nil, failed("%w", err)
	}
	k := &calibrated{before: before, after: after, fit: fit}
	if changed != nil {
		k.changed = changed.Sentences()
	}
	return k, nil
}

// predictor predicts a layout as it was when a reading was taken.
func predictor(b *path.Boat) readings.Predictor {
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

func (o *calibrateOptions) run(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	k, err := calibrate(b, o.draws)
	if err != nil {
		return err
	}
	o.warn(k.before)
	switch o.format {
	case "json":
		return printJSON(o.out, newCalibrateDoc(b, k))
	case "csv":
		return k.csv(o.common, b)
	}
	o.table(b, k)
	return nil
}

func newCalibrateDoc(b *path.Boat, k *calibrated) calibrateDoc {
	d := calibrateDoc{Terms: []termDoc{}, Residuals: []residualDoc{}, Instruments: []biasDoc{}, Covers: []coverDoc{}, Diagnosis: list(k.changed),
		Warnings: list(append(append([]string{}, k.before.warnings()...), k.fit.Warnings...))}
	for _, t := range k.fit.Terms {
		d.Terms = append(d.Terms, termDoc{t.Name, num(t.Prior), num(t.Posterior), num(t.SDBefore), num(t.SDAfter), t.Unit, t.Key})
	}
	for _, r := range k.fit.Residuals {
		d.Residuals = append(d.Residuals, residualDoc{readingName(b, r), numOr(r.Measured, 1), numOr(r.Predicted, 1), numOr(r.Residual, 1), r.Used, r.Reason, r.Unit, numOr(r.After, 1)})
	}
	for _, i := range k.fit.Instruments {
		d.Instruments = append(d.Instruments, biasDoc{i.Instrument, num(i.Mean), num(i.SDBefore), num(i.SDAfter)})
	}
	for _, p := range k.fit.Covers {
		d.Covers = append(d.Covers, coverDoc{p.What, p.Unit, num(p.Worth), num(p.Structure), p.Bound, airLevel(p), num(p.Model), p.Text()})
	}
	d.Before.Layouts = keepListeners(layoutDocs(k.before.predictions, k.before.spread), len(b.Listeners))
	d.After.Layouts = keepListeners(layoutDocs(k.before.predictions, k.after), len(b.Listeners))
	return d
}

// airLevel is null where it is not told, or where nothing comes by air.
func airLevel(p readings.Parted) number {
	if p.Air == nil {
		return nil
	}
	return level(*p.Air)
}

// keepListeners drops the listeners that were only added for readings in a space.
func keepListeners(ls []layoutDoc, n int) []layoutDoc {
	for i := range ls {
		ls[i].Listeners = ls[i].Listeners[:n]
	}
	return ls
}

func (o *calibrateOptions) table(b *path.Boat, k *calibrated) {
	paragraph(o.out, "", b.Text)
	fmt.Fprint(o.out, "\nReadings against the model:\n\n")
	o.residuals(b, k).print(o.out)
	if len(k.fit.Covers) > 0 {
		fmt.Fprint(o.out, "\nOpen against shut:\n\n")
		for _, p := range k.fit.Covers {
			paragraph(o.out, "  - ", o.local(sentence(p.Text())))
		}
	}
	fmt.Fprint(o.out, "\nLevels before and after, dB(A) with their bands:\n\n")
	k.levels(b).print(o.out)
	fmt.Fprint(o.out, "\nWhat moved or narrowed most:\n\n")
	k.causes().print(o.out)
	for _, w := range k.fit.Warnings {
		paragraph(o.out, "note: ", w)
	}
	if len(k.changed) > 0 {
		fmt.Fprint(o.out, "\nAgainst the readings logged before:\n\n")
		for _, line := range k.changed {
			paragraph(o.out, "  - ", o.local(line))
		}
	}
	fmt.Fprintln(o.out)
	paragraph(o.out, "", "To the ear 3 dB is barely a difference; 10 dB is about half or twice as loud. "+closing)
}

func (o *calibrateOptions) residuals(b *path.Boat, k *calibrated) *table {
	t := &table{head: []string{"reading", "measured", "model before", "model after", "used", "why"}, right: []bool{false, true, true, true, false, false}}
	for _, r := range k.fit.Residuals {
		used := "yes"
		if !r.Used {
			used = "no"
		}
		t.add(readingName(b, r), o.reading(r.Measured, r.Unit), o.reading(r.Predicted, r.Unit), o.reading(r.After, r.Unit), used, o.local(r.Reason))
	}
	return t
}

func (k *calibrated) levels(b *path.Boat) *table {
	t := &table{head: []string{"layout", "listener", "before", "after", "moved by"}, right: []bool{false, false, true, true, true}}
	for _, i := range k.before.order(0) {
		for j := range b.Listeners {
			x, y := k.before.spread.Layouts[i].Listeners[j], k.after.Layouts[i].Listeners[j]
			t.add(k.before.predictions[i].Layout.Name, b.Listeners[j].Name, decibel(x.Level)+" ("+bandText(x.Low, x.High)+")",
				decibel(y.Level)+" ("+bandText(y.Low, y.High)+")", fmt.Sprintf("%+.1f dB", y.Level-x.Level))
		}
	}
	return t
}

// causesShown is how many causes the table holds.
const causesShown = 12

func (k *calibrated) causes() *table {
	t := &table{head: []string{"cause", "of", "from", "to", "doubt before", "doubt after"}, right: []bool{false, false, true, true, true, true}}
	for i, m := range k.fit.Terms {
		if i >= causesShown {
			break
		}
		t.add(m.Name, shared(m), termText(m.Prior, m.Unit), termText(m.Posterior, m.Unit), "±"+termText(m.SDBefore, m.Unit), "±"+termText(m.SDAfter, m.Unit))
	}
	return t
}

// readingName says where, and what was open and how fast the engine ran where that was stated.
func readingName(b *path.Boat, r readings.Residual) string {
	name := r.What
	for _, x := range b.Readings {
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
func shared(m draws.Moved) string {
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

func (c *common) reading(v *float64, unit string) string {
	if v == nil {
		return "-"
	}
	switch {
	case unit == "Pa":
		return c.show(*v, boatfile.Pressure)
	case unit == "K":
		return c.show(*v, boatfile.Temperature)
	}
	return fmt.Sprintf("%.1f %s", *v, unit)
}

func (k *calibrated) csv(c *common, b *path.Boat) error {
	w := csv.NewWriter(c.out)
	w.Write([]string{"layout", "listener", "before_dba", "before_low_dba", "before_high_dba", "after_dba", "after_low_dba", "after_high_dba"})
	for i := range k.before.predictions {
		for j := range b.Listeners {
			x, y := k.before.spread.Layouts[i].Listeners[j], k.after.Layouts[i].Listeners[j]
			w.Write([]string{k.before.predictions[i].Layout.Name, b.Listeners[j].Name, field(level(x.Level)), field(level(x.Low)),
				field(level(x.High)), field(level(y.Level)), field(level(y.Low)), field(level(y.High))})
		}
	}
	w.Flush()
	return writeError(w.Error())
}
