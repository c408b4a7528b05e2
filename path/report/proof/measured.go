package proof

import (
	"fmt"

	"hushwake/path/report/form"
	"hushwake/path/study/record"
)

// Measured is the record of measured boats beside what is predicted of them.
type Measured struct {
	Rows        []MeasuredRow   `json:"rows"`
	Groups      []MeasuredGroup `json:"groups"`
	InsideShare form.Number     `json:"inside_share"`
	Bias        form.Number     `json:"bias_db"`
	Spread      form.Number     `json:"spread_db"`
	Counted     int             `json:"counted"`
	FarOutside  int             `json:"far_outside"`
}

// MeasuredRow bears dB(A), or what unit says. A limit has one end alone and no measured value.
type MeasuredRow struct {
	ID           string           `json:"id"`
	Group        string           `json:"group"`
	Seat         string           `json:"seat"`
	Measured     form.Number      `json:"measured_dba"`
	LowMeasured  form.Number      `json:"low_measured"`
	HighMeasured form.Number      `json:"high_measured"`
	Predicted    form.Number      `json:"predicted_dba"`
	Low          form.Number      `json:"low_dba"`
	High         form.Number      `json:"high_dba"`
	Inside       bool             `json:"inside"`
	Counted      bool             `json:"counted"`
	Source       string           `json:"source"`
	Unit         string           `json:"unit"`
	Deviation    form.Number      `json:"deviation_db"`
	Far          bool             `json:"far_outside"`
	SetsConstant string           `json:"sets_constant"`
	Note         string           `json:"note"`
	Octaves      []MeasuredOctave `json:"octaves"`

	Title      string `json:"-"` // of the case
	Instrument string `json:"-"`
	Verdict    string `json:"-"` // inside | outside | far outside
}

// MeasuredOctave is one octave of a row.
type MeasuredOctave struct {
	Hertz     float64     `json:"hz"`
	Measured  form.Number `json:"measured_db"`
	Predicted form.Number `json:"predicted_db"`
	Low       form.Number `json:"low_db"`
	High      form.Number `json:"high_db"`
	Inside    bool        `json:"inside"`
}

// MeasuredGroup is how the counted rows of one kind came out.
type MeasuredGroup struct {
	Group       string      `json:"group"`
	N           int         `json:"n"`
	Bias        form.Number `json:"bias_db"`
	Spread      form.Number `json:"spread_db"`
	InsideShare form.Number `json:"inside_share"`
	Limits      int         `json:"limits"`
}

// MeasuredRun is a run of the record.
type MeasuredRun struct{ record.Report }

// Document is every row and group.
func (m MeasuredRun) Document() any {
	r := m.Report
	d := Measured{Rows: m.rows(), Groups: form.Each(r.Groups, newMeasuredGroup), InsideShare: form.NumOr(r.All.Share(), 1), Bias: form.NumOr(r.All.Bias, 1),
		Spread: form.NumOr(r.All.Spread, 1), Counted: r.All.N, FarOutside: len(r.Far())}
	return d
}

func (m MeasuredRun) rows() []MeasuredRow {
	out := []MeasuredRow{}
	for i := range m.Rows {
		out = append(out, newMeasuredRow(&m.Rows[i]))
	}
	return out
}

func newMeasuredGroup(s record.Sum) MeasuredGroup {
	return MeasuredGroup{s.Group, s.N, form.NumOr(s.Bias, 1), form.NumOr(s.Spread, 1), form.NumOr(s.Share(), 1), s.Limits}
}

func newMeasuredRow(x *record.Row) MeasuredRow {
	r := MeasuredRow{ID: rowName(x), Group: x.Group, Seat: seatText(x), LowMeasured: form.NumOr(x.Low, 1), HighMeasured: form.NumOr(x.High, 1),
		Predicted: form.Num(x.Predicted), Low: form.Num(x.LowP), High: form.Num(x.Top), Inside: x.Inside, Counted: x.Counted(), Source: x.Case.Source,
		Unit: "dB(A)", Deviation: form.Num(x.Deviation), Far: x.Far, SetsConstant: x.SetsConstant, Note: x.Note,
		Title: x.Case.Title, Instrument: x.Case.Instrument, Verdict: verdictText(x)}
	if u := unitText(x); u != "" {
		r.Unit = u[1:]
	}
	if !x.Limit() {
		r.Measured = form.Num(x.Measured())
	}
	r.Octaves = form.Each(x.Octaves, func(b record.Octave) MeasuredOctave {
		return MeasuredOctave{b.Hertz, form.Num(b.Measured), form.Num(b.Predicted), form.Num(b.LowP), form.Num(b.Top), b.Inside}
	})
	return r
}

func rowName(x *record.Row) string { return x.Case.ID + "/" + x.ID }

// seatText names the seat, and of a difference the one it is compared with.
func seatText(x *record.Row) string {
	if x.Less != nil {
		return x.Seat.String() + " less " + x.Less.String()
	}
	return x.Seat.String()
}

// Sheet has a row for each measured figure.
func (m MeasuredRun) Sheet() form.Sheet {
	out := form.Sheet{{"id", "group", "seat", "measured_dba", "low_measured", "high_measured", "predicted_dba", "low_dba", "high_dba", "inside", "counted", "source"}}
	for _, r := range m.rows() {
		out.Add(r.ID, r.Group, r.Seat, form.Field(r.Measured), form.Field(r.LowMeasured), form.Field(r.HighMeasured), form.Field(r.Predicted), form.Field(r.Low), form.Field(r.High),
			fmt.Sprint(r.Inside), fmt.Sprint(r.Counted), r.Source)
	}
	return out
}

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
