package charts

import (
	"errors"
	"fmt"
	"io"

	"hushwake/charts/drawable"
	"hushwake/path/report/proof"
)

// WriteRecord writes the record as one HTML file; nothing is written if it cannot be shown honestly.
func WriteRecord(w io.Writer, r *proof.PageRecord) error {
	if r == nil || len(r.Rows) == 0 {
		return errors.New("charts: the record holds no row")
	}
	if err := drawable.Finite(*r, "predicted against measured"); err != nil {
		return err
	}
	for i, x := range r.Rows {
		if x.Predicted == nil || x.Low == nil || x.High == nil || x.Deviation == nil {
			return fmt.Errorf("charts: Rows[%d], %s, lacks its prediction", i, x.ID)
		}
	}
	p := newPage("The record of measured boats, engines and boxes", r.Version, "")
	p.Provenance, p.Headline = "Every row is predicted without its reading", "Measured against predicted"
	p.Say, p.Glance = r.Answer, recordGroups(r)
	p.Sections = []section{recordChart(r), recordRows(r, true)}
	if rows := recordRows(r, false); len(rows.Tables[0].Rows) > 0 {
		p.Sections = append(p.Sections, rows)
	}
	p.Sections = append(p.Sections, recordSources(r))
	return p.write(w)
}

func recordGroups(r *proof.PageRecord) table {
	t := table{Caption: "By group, predicted less measured", Head: []string{"Group", "rows", "of them limits", "bias, dB", "spread, dB", "inside the band"}}
	for _, g := range append(append([]proof.MeasuredGroup{}, r.Groups...), r.All) {
		t.Rows = append(t.Rows, []cell{words(g.Group), num(wholeDB.bare(count(g.N))), num(wholeDB.bare(count(g.Limits))),
			num(signedOr(g.Bias)), num(decibel.bare(g.Spread)), num(percent.text(g.InsideShare))})
	}
	return t
}

func count(n int) *float64 { v := float64(n); return &v }

func measured(x *proof.MeasuredRow) string {
	switch {
	case x.LowMeasured == nil:
		return "at most " + decibel.bare(x.HighMeasured)
	case x.HighMeasured == nil:
		return "at least " + decibel.bare(x.LowMeasured)
	case *x.LowMeasured != *x.HighMeasured:
		return decibel.span(x.LowMeasured, x.HighMeasured)
	}
	return decibel.bare(x.LowMeasured)
}

// recordRows is the table of the rows that are counted, or of those that set a constant.
func recordRows(r *proof.PageRecord, counted bool) section {
	s := section{ID: "rows", Title: "Every counted row"}
	t := table{Caption: "Measured and predicted", Head: []string{"Row", "where", "group", "measured", "predicted", "band of eight in ten", "unit", "off by", "verdict", "remark"}}
	if !counted {
		s = section{ID: "set", Title: "Rows that set a constant", matter: matter{Lead: []string{"What a row went into it cannot prove: these are shown and not counted."}}}
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
		t.Rows = append(t.Rows, []cell{words(x.ID), words(x.Seat), third, num(measured(x)), num(decibel.bare(x.Predicted)),
			num(decibel.span(x.Low, x.High)), words(x.Unit), num(signedOr(x.Deviation)), v, words(x.Note)})
		if len(x.Octaves) > 0 {
			s.Tables = append(s.Tables, recordOctaves(x))
		}
	}
	s.Tables = append([]table{withoutEmptyColumns(t)}, s.Tables...)
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

func recordOctaves(x *proof.MeasuredRow) table {
	t := table{Caption: "Octaves of " + x.ID, Head: []string{"Octave, Hz", "measured", "predicted", "band of eight in ten", "off by"}}
	for _, o := range x.Octaves {
		t.Rows = append(t.Rows, []cell{words(hertz.bare(&o.Hertz)), num(decibel.bare(o.Measured)), num(decibel.bare(o.Predicted)),
			num(decibel.span(o.Low, o.High)), num(offBy(o.Predicted, o.Measured))})
	}
	return t
}

func offBy(predicted, measured *float64) string {
	if predicted == nil || measured == nil {
		return decibel.bare(nil)
	}
	return signedNumber(*predicted - *measured)
}

// recordSources says once for each case where its figures stand.
func recordSources(r *proof.PageRecord) section {
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
