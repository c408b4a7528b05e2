package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/spf13/pflag"

	"hushwake/charts"
	"hushwake/path/boatfile"
	"hushwake/path/study/record"
)

// errFarOff ends a strict run in which a row lies far outside; its text is already printed.
var errFarOff = &exitError{statusOverLimit, errors.New("a measured row lies far outside its band")}

type measuredOptions struct {
	*common
	options       record.Options
	report        string
	strict, force bool
}

func (o *measuredOptions) flags(f *pflag.FlagSet) {
	f.StringVar(&o.report, "report", "", "write the record as a page, predicted against measured")
	f.BoolVar(&o.force, "force", false, "replace an existing page")
	f.BoolVar(&o.strict, "strict", false, "exit with status 1 when a row lies far outside its band")
	f.Uint64Var(&o.options.Seed, "seed", 0, "seed of the samples and draws (0: the usual)")
	f.IntVar(&o.options.Samples, "samples", record.DefaultSamples, "samples of the assumed inputs, each a full prediction")
}

func (o *measuredOptions) run(files []string) error {
	if o.options.Samples < 1 || o.options.Samples > maxSamples {
		return badInput("--samples %d: between 1 and %d are possible\nhint: leave it out for %d", o.options.Samples, maxSamples, record.DefaultSamples)
	}
	r, err := o.predict(files)
	if err != nil {
		return err
	}
	if err := o.print(r); err != nil {
		return err
	}
	if err := o.writePage(r); err != nil {
		return err
	}
	if o.strict && len(r.Far()) > 0 {
		return errFarOff
	}
	return nil
}

// maxSamples keeps a run below an hour.
const maxSamples = 1000

func (o *measuredOptions) predict(files []string) (r record.Report, err error) {
	var cases []*boatfile.Case
	if len(files) == 0 {
		cases, err = record.BuiltIn()
	} else {
		cases, err = record.Load(files...)
	}
	if err != nil {
		return r, badInput("%w", err)
	}
	if r, err = record.Run(cases, o.options); err != nil {
		return r, badInput("%w", err)
	}
	return r, nil
}

func (o *measuredOptions) print(r record.Report) error {
	switch o.format {
	case "json":
		return printJSON(o.out, newMeasuredDoc(r))
	case "csv":
		return o.csv(newMeasuredDoc(r))
	}
	o.tables(r)
	return nil
}

func (o *measuredOptions) writePage(r record.Report) error {
	if o.report == "" {
		return nil
	}
	var page bytes.Buffer
	if err := charts.WriteRecord(&page, recordPage(r)); err != nil {
		return failed("%w", err)
	}
	if err := writeFile(o.report, page.Bytes(), o.force); err != nil {
		return err
	}
	o.remark("wrote %s", o.report)
	return nil
}

// tables prints rows, groups and what they say.
func (o *measuredOptions) tables(r record.Report) {
	fmt.Fprint(o.out, "Measured rows that no constant of the program rests on:\n\n")
	rowTable(r, true).print(o.out)
	if r.Set.N > 0 {
		fmt.Fprint(o.out, "\nRows that set a constant, which therefore prove nothing and are not counted:\n\n")
		rowTable(r, false).print(o.out)
	}
	if t := octaveTable(r); len(t.rows) > 0 {
		fmt.Fprint(o.out, "\nOctaves of them, shown and not counted:\n\n")
		t.print(o.out)
	}
	fmt.Fprint(o.out, "\nBy group, predicted less measured:\n\n")
	groupTable(r).print(o.out)
	fmt.Fprintln(o.out)
	for _, s := range recordSaid(r) {
		paragraph(o.out, "", s)
	}
}

func rowTable(r record.Report, counted bool) *table {
	t := &table{head: []string{"case", "row", "group", "measured", "predicted", "off by", "verdict"},
		right: []bool{false, false, false, true, true, true, false}}
	if !counted {
		t.head[2] = "sets"
	}
	last := ""
	for i := range r.Rows {
		x := &r.Rows[i]
		if x.Counted() != counted {
			continue
		}
		name, third := x.Case.ID, x.Group
		if name == last {
			name = ""
		}
		if last = x.Case.ID; !counted {
			third = x.SetsConstant
		}
		t.add(name, x.ID, third, measuredText(x)+unitText(x), predictedText(x), fmt.Sprintf("%+.1f", x.Deviation), verdictText(x))
	}
	return t
}

// measuredText is the reading, range or limit; a limit says on which side it stands.
func measuredText(x *record.Row) string {
	switch {
	case x.Low == nil:
		return "at most " + plain(*x.High)
	case x.High == nil:
		return "at least " + plain(*x.Low)
	case *x.Low != *x.High:
		return plain(*x.Low) + " to " + plain(*x.High)
	}
	return plain(*x.Low)
}

// predictedText is the median with its band; differences may be negative and are shown finer.
func predictedText(x *record.Row) string {
	if x.Less != nil {
		return fmt.Sprintf("%.1f (%.1f to %.1f)", x.Predicted, x.LowP, x.Top)
	}
	return decibel(x.Predicted) + " (" + bandText(x.LowP, x.Top) + ")"
}

func plain(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0") }

// unitText is the unit where it is not dB(A).
func unitText(x *record.Row) string {
	switch {
	case x.Less != nil:
		return " dB"
	case x.Weighting == "C":
		return " dB(C)"
	}
	return ""
}

func verdictText(x *record.Row) string {
	switch {
	case x.Far:
		return "far outside"
	case !x.Inside:
		return "outside"
	}
	return "inside"
}

func octaveTable(r record.Report) *table {
	t := &table{head: []string{"case", "row", "octave, Hz", "measured", "predicted", "off by", "verdict"},
		right: []bool{false, false, true, true, true, true, false}}
	for i := range r.Rows {
		x := &r.Rows[i]
		for k, b := range x.Octaves {
			name, row := "", ""
			if k == 0 {
				name, row = x.Case.ID, x.ID
			}
			verdict := "inside"
			if !b.Inside {
				verdict = "outside"
			}
			t.add(name, row, plain(b.Hertz), plain(b.Measured), decibel(b.Predicted)+" ("+bandText(b.LowP, b.Top)+")",
				fmt.Sprintf("%+.1f", b.Predicted-b.Measured), verdict)
		}
	}
	return t
}

func groupTable(r record.Report) *table {
	t := &table{head: []string{"group", "rows", "of them limits", "bias, dB", "spread, dB", "inside the band"}, right: []bool{false, true, true, true, true, true}}
	for _, s := range append(append([]record.Sum{}, r.Groups...), r.All) {
		t.add(s.Group, fmt.Sprint(s.N), fmt.Sprint(s.Limits), signedText(s.Bias), spreadText(s.Spread), shareText(s.Share()))
	}
	return t
}

func signedText(v *float64) string {
	if v == nil {
		return "-"
	}
	return fmt.Sprintf("%+.1f", *v)
}

func spreadText(v *float64) string {
	if v == nil {
		return "-"
	}
	return fmt.Sprintf("%.1f", *v)
}

func shareText(v *float64) string {
	if v == nil {
		return "-"
	}
	return fmt.Sprintf("%.0f %%", 100**v)
}

// recordSaid puts the record into sentences; the page says the same.
func recordSaid(r record.Report) []string {
	out := append(outcomeSaid(r.All), fmt.Sprintf("Each prediction knows nothing of its reading. Inputs that a source doesn't state are drawn from their spans in %d samples, "+
		"and the doubts of the model beside them: a band holds both.", r.Options.Samples))
	for _, x := range r.Far() {
		out = append(out, fmt.Sprintf("Far outside: %s, row %s: measured %s, predicted %s. Either the reading, what was assumed of the boat, or the program is wrong.",
			x.Case.ID, x.ID, measuredText(&x), predictedText(&x)))
	}
	return out
}

func outcomeSaid(all record.Sum) []string {
	if all.N == 0 {
		return []string{"No row is counted: every one of them set a constant of the program."}
	}
	first := fmt.Sprintf("%d of %d counted rows lie inside the band that should hold eight of ten (%s).", all.Inside, all.N, shareText(all.Share()))
	if all.Limits > 0 {
		first += fmt.Sprintf(" %d of %d readings lie inside (%s) and %d of %d limits are kept: a limit counts on its own side alone, and not in bias and spread.",
			all.Inside-all.Kept, all.N-all.Limits, shareText(all.ReadingsShare()), all.Kept, all.Limits)
	}
	if all.Bias == nil {
		return []string{first}
	}
	second := fmt.Sprintf("On the mean the readings are predicted %.1f dB too %s", math.Abs(*all.Bias), loudOrQuiet(*all.Bias))
	if all.Spread != nil {
		second += fmt.Sprintf(", with a spread of %.1f dB", *all.Spread)
	}
	return []string{first, second + "."}
}

func loudOrQuiet(bias float64) string {
	if bias < 0 {
		return "quiet"
	}
	return "loud"
}

func (o *measuredOptions) csv(d measuredDoc) error {
	w := csv.NewWriter(o.out)
	w.Write([]string{"id", "group", "seat", "measured_dba", "low_measured", "high_measured", "predicted_dba", "low_dba", "high_dba", "inside", "counted", "source"})
	for _, r := range d.Rows {
		w.Write([]string{r.ID, r.Group, r.Seat, field(r.Measured), field(r.LowMeasured), field(r.HighMeasured), field(r.Predicted), field(r.Low), field(r.High),
			fmt.Sprint(r.Inside), fmt.Sprint(r.Counted), r.Source})
	}
	w.Flush()
	return writeError(w.Error())
}
