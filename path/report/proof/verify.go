package proof

import (
	"fmt"
	"strconv"
	"strings"

	"hushwake/path/report/form"
	"hushwake/path/study/verify"
)

// Verify is the published checks with what this build gives.
type Verify struct {
	Checks       []VerifyRow `json:"checks"`
	Passed       int         `json:"passed"`
	Failed       int         `json:"failed"`
	NotValidated []string    `json:"not_validated"`
	Marks        []MarkCount `json:"marks"`
}

// MarkCount is how many rows bear a mark, such as read, derived or from memory.
type MarkCount struct {
	Mark string `json:"mark"`
	Rows int    `json:"rows"`
}

// VerifyRow is one published check.
type VerifyRow struct {
	What      string      `json:"what"`
	Source    string      `json:"source"`
	Expected  form.Number `json:"expected"`
	Ours      form.Number `json:"ours"`
	Tolerance form.Number `json:"tolerance"`
	Verdict   string      `json:"verdict"`
	Unit      string      `json:"unit"`
	Mark      string      `json:"mark"`
}

// Verified is a run of the published checks.
type Verified struct{ verify.Report }

// Document is every check.
func (v Verified) Document() any { return v.document() }

func (v Verified) document() Verify {
	r := v.Report
	d := Verify{Checks: []VerifyRow{}, Passed: r.Passed, Failed: r.Failed, NotValidated: form.List(r.NotValidated), Marks: []MarkCount{}}
	at := map[string]int{}
	for _, k := range r.Checks {
		if _, ok := at[k.Mark]; !ok {
			at[k.Mark] = len(d.Marks)
			d.Marks = append(d.Marks, MarkCount{Mark: k.Mark})
		}
		d.Marks[at[k.Mark]].Rows++
		d.Checks = append(d.Checks, VerifyRow{k.What, k.Source, form.Num(k.Expected), form.NumOr(k.Ours, 1), form.Num(k.Tolerance), k.Verdict, k.Unit, k.Mark})
	}
	return d
}

// Sheet has a row for each check.
func (v Verified) Sheet() form.Sheet {
	out := form.Sheet{{"what", "source", "expected", "ours", "tolerance", "verdict"}}
	for _, r := range v.document().Checks {
		out.Add(r.What, r.Source, form.Field(r.Expected), form.Field(r.Ours), form.Field(r.Tolerance), r.Verdict)
	}
	return out
}

// Text shows every check, how many hold, and what no check covers.
func (v Verified) Text(form.Units) *form.Text {
	t, d := &form.Text{}, v.document()
	checks := form.NewTable("what", "source", ">expected", ">ours", ">tolerance", "verdict")
	for _, r := range d.Checks {
		checks.Add(r.What, r.Source+" ["+r.Mark+"]", WithUnit(r.Expected, r.Unit), Short(r.Ours), Short(r.Tolerance), r.Verdict)
	}
	t.Table(checks)
	var marks []string
	for _, m := range d.Marks {
		marks = append(marks, fmt.Sprintf("%d %s", m.Rows, m.Mark))
	}
	t.Line("\nNot validated:")
	for _, s := range d.NotValidated {
		t.Say("  - ", "%s", s)
	}
	t.Line("\n%d hold, %d fail; by mark:\n%s", d.Passed, d.Failed, strings.Join(marks, ", "))
	return t
}

// WithUnit is a figure of a check with its unit; a ratio has none.
func WithUnit(v form.Number, unit string) string {
	if unit == "1" {
		return Short(v)
	}
	return Short(v) + " " + unit
}

// Short is a figure of a check, to five digits.
func Short(v form.Number) string {
	if v == nil {
		return "none"
	}
	text := strconv.FormatFloat(*v+0, 'g', 5, 64) // no minus before 0
	if mantissa, power, scaled := strings.Cut(text, "e"); scaled && power[0] == '-' {
		return mantissa + " x 10^" + power[:1] + strings.TrimLeft(power[1:], "0")
	} else if scaled {
		whole, _ := strconv.ParseFloat(text, 64) // what was just printed
		return strconv.FormatFloat(whole, 'f', -1, 64)
	}
	return text
}
