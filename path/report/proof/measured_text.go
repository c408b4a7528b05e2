package proof

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/report/form"
	"hushwake/path/study/record"
)

// Text shows rows, groups and what they say.
func (m MeasuredRun) Text(form.Units) *form.Text {
	t, r := &form.Text{}, m.Report
	t.Line("Measured rows that no constant of the program rests on:\n")
	t.Table(rowTable(r, true))
	if r.Set.N > 0 {
		t.Line("\nRows that set a constant, which therefore prove nothing and are not counted:\n")
		t.Table(rowTable(r, false))
	}
	if octaves := octaveTable(r); len(octaves.Rows) > 0 {
		t.Line("\nOctaves of them, shown and not counted:\n")
		t.Table(octaves)
	}
	t.Line("\nBy group, predicted less measured:\n")
	t.Table(groupTable(r))
	t.Blank()
	for _, s := range m.sentences() {
		t.Say("", "%s", s)
	}
	return t
}

func rowTable(r record.Report, counted bool) *form.Table {
	t := form.NewTable("case", "row", "group", ">measured", ">predicted", ">off by", "verdict")
	if !counted {
		t.Columns[2].Name = "sets"
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
		t.Add(name, x.ID, third, measuredText(x)+unitText(x), predictedText(x), fmt.Sprintf("%+.1f", x.Deviation), verdictText(x))
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
	return form.LevelText(x.Predicted, x.LowP, x.Top)
}

func plain(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0") }

func octaveTable(r record.Report) *form.Table {
	t := form.NewTable("case", "row", ">octave, Hz", ">measured", ">predicted", ">off by", "verdict")
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
			t.Add(name, row, plain(b.Hertz), plain(b.Measured), form.LevelText(b.Predicted, b.LowP, b.Top),
				fmt.Sprintf("%+.1f", b.Predicted-b.Measured), verdict)
		}
	}
	return t
}

func groupTable(r record.Report) *form.Table {
	t := form.NewTable("group", ">rows", ">of them limits", ">bias, dB", ">spread, dB", ">inside the band")
	for _, s := range append(append([]record.Sum{}, r.Groups...), r.All) {
		t.Add(s.Group, fmt.Sprint(s.N), fmt.Sprint(s.Limits), orDash(s.Bias, "%+.1f", 1), orDash(s.Spread, "%.1f", 1), shareText(s.Share()))
	}
	return t
}

// orDash prints a figure that may not exist.
func orDash(v *float64, format string, scale float64) string {
	if v == nil {
		return "-"
	}
	return fmt.Sprintf(format, scale**v)
}

func shareText(v *float64) string { return orDash(v, "%.0f %%", 100) }

// sentences put the record into sentences; the page says the same.
func (m MeasuredRun) sentences() []string {
	r := m.Report
	out := append(outcomeText(r.All), fmt.Sprintf("Each prediction knows nothing of its reading. Inputs that a source doesn't state are drawn from their spans in %d samples, "+
		"and the doubts of the model beside them: a band holds both.", r.Options.Samples))
	for _, x := range r.Far() {
		out = append(out, fmt.Sprintf("Far outside: %s, row %s: measured %s, predicted %s. Either the reading, what was assumed of the boat, or the program is wrong.",
			x.Case.ID, x.ID, measuredText(&x), predictedText(&x)))
	}
	return out
}

func outcomeText(all record.Sum) []string {
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

// PageRecord is everything that the page of the measured record shows, in dB.
type PageRecord struct {
	Version string
	Answer  []string
	Rows    []MeasuredRow
	Groups  []MeasuredGroup // of counted rows
	All     MeasuredGroup
}

// Page is the data of the page.
func (m MeasuredRun) Page() *PageRecord {
	return &PageRecord{Version: form.Version, Answer: m.sentences(), Rows: m.rows(), Groups: form.Each(m.Groups, newMeasuredGroup), All: newMeasuredGroup(m.All)}
}
