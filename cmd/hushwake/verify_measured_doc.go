package main

import (
	"hushwake/charts"
	"hushwake/path/study/record"
)

type measuredDoc struct {
	Rows        []measuredRow   `json:"rows"`
	Groups      []measuredGroup `json:"groups"`
	InsideShare number          `json:"inside_share"`
	Bias        number          `json:"bias_db"`
	Spread      number          `json:"spread_db"`
	Counted     int             `json:"counted"`
	FarOutside  int             `json:"far_outside"`
}

// measuredRow bears dB(A), or what unit says. A limit has one end alone and no measured value.
type measuredRow struct {
	ID           string        `json:"id"`
	Group        string        `json:"group"`
	Seat         string        `json:"seat"`
	Measured     number        `json:"measured_dba"`
	LowMeasured  number        `json:"low_measured"`
	HighMeasured number        `json:"high_measured"`
	Predicted    number        `json:"predicted_dba"`
	Low          number        `json:"low_dba"`
	High         number        `json:"high_dba"`
	Inside       bool          `json:"inside"`
	Counted      bool          `json:"counted"`
	Source       string        `json:"source"`
	Unit         string        `json:"unit"`
	Deviation    number        `json:"deviation_db"`
	Far          bool          `json:"far_outside"`
	SetsConstant string        `json:"sets_constant"`
	Note         string        `json:"note"`
	Octaves      []octaveOfRow `json:"octaves"`
}

type octaveOfRow struct {
	Hertz     float64 `json:"hz"`
	Measured  number  `json:"measured_db"`
	Predicted number  `json:"predicted_db"`
	Low       number  `json:"low_db"`
	High      number  `json:"high_db"`
	Inside    bool    `json:"inside"`
}

type measuredGroup struct {
	Group       string `json:"group"`
	N           int    `json:"n"`
	Bias        number `json:"bias_db"`
	Spread      number `json:"spread_db"`
	InsideShare number `json:"inside_share"`
	Limits      int    `json:"limits"`
}

func newMeasuredDoc(r record.Report) measuredDoc {
	d := measuredDoc{Rows: []measuredRow{}, Groups: []measuredGroup{}, InsideShare: numOr(r.All.Share(), 1), Bias: numOr(r.All.Bias, 1),
		Spread: numOr(r.All.Spread, 1), Counted: r.All.N, FarOutside: len(r.Far())}
	for i := range r.Rows {
		d.Rows = append(d.Rows, newMeasuredRow(&r.Rows[i]))
	}
	for _, s := range r.Groups {
		d.Groups = append(d.Groups, measuredGroup{s.Group, s.N, numOr(s.Bias, 1), numOr(s.Spread, 1), numOr(s.Share(), 1), s.Limits})
	}
	return d
}

func newMeasuredRow(x *record.Row) measuredRow {
	r := measuredRow{ID: rowName(x), Group: x.Group, Seat: seatText(x), LowMeasured: numOr(x.Low, 1), HighMeasured: numOr(x.High, 1),
		Predicted: num(x.Predicted), Low: num(x.LowP), High: num(x.Top), Inside: x.Inside, Counted: x.Counted(), Source: x.Case.Source,
		Unit: "dB(A)", Deviation: num(x.Deviation), Far: x.Far, SetsConstant: x.SetsConstant, Note: x.Note, Octaves: []octaveOfRow{}}
	if u := unitText(x); u != "" {
		r.Unit = u[1:]
	}
	if !x.Limit() {
		r.Measured = num(x.Measured())
	}
	for _, b := range x.Octaves {
		r.Octaves = append(r.Octaves, octaveOfRow{b.Hertz, num(b.Measured), num(b.Predicted), num(b.LowP), num(b.Top), b.Inside})
	}
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

// recordPage fills the page's data from a run.
func recordPage(r record.Report) *charts.Record {
	p := &charts.Record{Version: version, Answer: recordSaid(r), All: recordGroup(r.All)}
	for i := range r.Rows {
		x := &r.Rows[i]
		row := charts.RecordRow{Name: rowName(x), Seat: seatText(x), Group: x.Group, Low: x.Low, High: x.High, Unit: newMeasuredRow(x).Unit,
			Predicted: x.Predicted, LowP: x.LowP, Top: x.Top, Deviation: x.Deviation, Verdict: verdictText(x), SetsConstant: x.SetsConstant, Note: x.Note,
			Title: x.Case.Title, Source: x.Case.Source, Instrument: x.Case.Instrument}
		for _, b := range x.Octaves {
			row.Octaves = append(row.Octaves, charts.RecordOctave{Hertz: b.Hertz, Measured: b.Measured, Predicted: b.Predicted, LowP: b.LowP, Top: b.Top})
		}
		p.Rows = append(p.Rows, row)
	}
	for _, s := range r.Groups {
		p.Groups = append(p.Groups, recordGroup(s))
	}
	return p
}

func recordGroup(s record.Sum) charts.RecordGroup {
	return charts.RecordGroup{Name: s.Group, N: s.N, Limits: s.Limits, Bias: s.Bias, Spread: s.Spread, Inside: s.Share()}
}
