package charts

import (
	"errors"
	"io"
	"reflect"
)

// Record is everything the page of the measured record shows, in dB. A nil pointer is a value that does
// not exist.
type Record struct {
	Version string
	Answer  []string
	Rows    []RecordRow
	Groups  []RecordGroup // of counted rows
	All     RecordGroup
}

// RecordRow is one measured figure beside its prediction. Low and High are equal for a plain reading;
// one of them is nil for a limit.
type RecordRow struct {
	Name, Seat, Group   string
	Low, High           *float64 // measured
	Unit                string   // dB(A), dB(C), or dB of a difference
	Predicted, LowP     float64  // median and 10th percentile
	Top                 float64  // 90th percentile
	Deviation           float64
	Verdict             string // inside | outside | far outside
	SetsConstant        string // "" = counted
	Title, Source, Note string
	Instrument          string
	Octaves             []RecordOctave
}

// RecordOctave is one octave of a row.
type RecordOctave struct {
	Hertz                          float64
	Measured, Predicted, LowP, Top float64
}

// RecordGroup is how the counted rows of one kind came out.
type RecordGroup struct {
	Name         string
	N, Limits    int
	Bias, Spread *float64
	Inside       *float64 // share inside the band, 0..1
}

// WriteRecord writes the record as one HTML file; nothing is written if it cannot be shown honestly.
func WriteRecord(w io.Writer, r *Record) error {
	if r == nil || len(r.Rows) == 0 {
		return errors.New("charts: the record holds no row")
	}
	if err := finite(reflect.ValueOf(*r), "", "predicted against measured"); err != nil {
		return err
	}
	p := newPage("Measured against predicted", r.Version)
	p.Provenance = "The record of measured boats, engines and boxes"
	p.Answer, p.Glance = r.Answer, recordGroups(r)
	p.Sections = []section{recordChart(r), recordRows(r, true)}
	if rows := recordRows(r, false); len(rows.Tables[0].Rows) > 0 {
		p.Sections = append(p.Sections, rows)
	}
	p.Sections = append(p.Sections, recordSources(r))
	return p.write(w)
}

func recordGroups(r *Record) table {
	t := table{Caption: "By group, predicted less measured", Head: []string{"Group", "rows", "of them limits", "bias, dB", "spread, dB", "inside the band"}}
	for _, g := range append(append([]RecordGroup{}, r.Groups...), r.All) {
		t.Rows = append(t.Rows, []cell{words(g.Name), num(wholeDB.bare(count(g.N))), num(wholeDB.bare(count(g.Limits))),
			num(signedOr(g.Bias)), num(decibel.bare(g.Spread)), num(percent.text(g.Inside))})
	}
	return t
}

func count(n int) *float64 { v := float64(n); return &v }

func (x *RecordRow) measured() string {
	switch {
	case x.Low == nil:
		return "at most " + decibel.bare(x.High)
	case x.High == nil:
		return "at least " + decibel.bare(x.Low)
	case *x.Low != *x.High:
		return decibel.span(x.Low, x.High)
	}
	return decibel.bare(x.Low)
}

// recordRows is the table of the rows that are counted, or of those that set a constant.
func recordRows(r *Record, counted bool) section {
	s := section{ID: "rows", Title: "Every counted row"}
	t := table{Caption: "Measured and predicted", Head: []string{"Row", "where", "group", "measured", "predicted", "band of eight in ten", "unit", "off by", "verdict", "remark"}}
	if !counted {
		s = section{ID: "set", Title: "Rows that set a constant", Lead: []string{"What a row went into it cannot prove: these are shown and not counted."}}
		t.Caption, t.Head[2] = "Rows that set a constant", "sets"
	}
	for i := range r.Rows {
		x := &r.Rows[i]
		if (x.SetsConstant == "") != counted {
			continue
		}
		third, v := words(x.Group), cell{Text: x.Verdict}
		if !counted {
			third = words(x.SetsConstant)
		}
		if x.Verdict != "inside" {
			v.Class = "bad"
		}
		t.Rows = append(t.Rows, []cell{words(x.Name), words(x.Seat), third, num(x.measured()), num(decibel.bare(&x.Predicted)),
			num(decibel.span(&x.LowP, &x.Top)), words(x.Unit), num(signedNumber(x.Deviation)), v, words(x.Note)})
		if len(x.Octaves) > 0 {
			s.Tables = append(s.Tables, recordOctaves(x))
		}
	}
	s.Tables = append([]table{told(t)}, s.Tables...)
	return s
}

func signedOr(v *float64) string {
	if v == nil {
		return decibel.bare(v)
	}
	return signedNumber(*v)
}

func signedNumber(v float64) string {
	if v > 0 {
		return "+" + decibel.bare(&v)
	}
	return decibel.bare(&v)
}

func recordOctaves(x *RecordRow) table {
	t := table{Caption: "Octaves of " + x.Name, Head: []string{"Octave, Hz", "measured", "predicted", "band of eight in ten", "off by"}}
	for _, o := range x.Octaves {
		t.Rows = append(t.Rows, []cell{words(hertz.bare(&o.Hertz)), num(decibel.bare(&o.Measured)), num(decibel.bare(&o.Predicted)),
			num(decibel.span(&o.LowP, &o.Top)), num(signedNumber(o.Predicted - o.Measured))})
	}
	return t
}

// recordSources says once for each case where its figures stand.
func recordSources(r *Record) section {
	s := section{ID: "sources", Title: "Where the figures stand"}
	t := table{Caption: "Sources", Head: []string{"What", "source", "instrument"}}
	seen := map[string]bool{}
	for _, x := range r.Rows {
		if !seen[x.Title] {
			seen[x.Title] = true
			t.Rows = append(t.Rows, []cell{words(x.Title), words(x.Source), words(x.Instrument)})
		}
	}
	s.Tables = []table{t}
	return s
}
