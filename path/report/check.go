package report

import (
	"fmt"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/readings"
)

// Check is what is wrong with a boat file, what was filled in, and its cautions.
type Check struct {
	Errors      []Problem          `json:"errors"`
	Warnings    []string           `json:"warnings"`
	Assumptions []parts.Assumption `json:"assumptions"`
	Cautions    []CheckCaution     `json:"cautions"`
}

// Problem is an error in a boat file.
type Problem struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
	Hint    string `json:"hint"`
}

// CheckCaution is a caution with the layouts it concerns.
type CheckCaution struct {
	Code     string `json:"code"`
	Severity string `json:"severity"`
	Text     string `json:"text"`
	Action   string `json:"action"`
	Source   string `json:"source"`
	Layouts  string `json:"layouts"`
	Refuses  bool   `json:"refuses"`
}

// Checked is a file without errors.
type Checked struct{ *Comparison }

// NewChecked predicts every layout of a file where somebody listens.
func NewChecked(b *path.Boat, o readings.Options) (Checked, error) {
	if b.Bench != nil && len(b.Listeners) == 0 || len(b.Layouts) == 0 {
		return Checked{&Comparison{Boat: b}}, nil
	}
	known, err := readings.Know(b, o)
	if err != nil {
		return Checked{}, err
	}
	w, err := NewComparison(b, b.Layouts, 0, known)
	return Checked{w}, err
}

// Errors is the document of a file with errors.
func Errors(problems []decode.Problem) Check {
	d := Check{Errors: []Problem{}, Warnings: []string{}, Assumptions: []parts.Assumption{}, Cautions: []CheckCaution{}}
	for _, p := range problems {
		d.Errors = append(d.Errors, Problem{p.File, p.Line, p.Column, p.Message, p.Hint})
	}
	return d
}

// Document is a check without errors.
func (c Checked) Document() any {
	d := Errors(nil)
	d.Warnings, d.Assumptions = form.List(c.Warned()), c.assumptions()
	for _, f := range append(c.refusals(form.Units{}), c.cautions(allNames, form.Units{})...) {
		d.Cautions = append(d.Cautions, CheckCaution{f.Code, f.Severity, f.Text, f.Action, f.Source, f.where, f.Refuse})
	}
	return d
}

// Sheet has a row for each warning, assumption and caution.
func (c Checked) Sheet() form.Sheet {
	out := form.Sheet{{"sort", "code", "severity", "text", "action", "source", "plus_minus_db"}}
	for _, t := range c.Warned() {
		out.Add("warning", "", "", t, "", "", "")
	}
	for _, a := range c.assumptions() {
		out.Add("assumption", a.Field, "", a.Value, "", a.Source, form.Field(a.PlusMinus))
	}
	for _, f := range append(c.refusals(form.Units{}), c.cautions(allNames, form.Units{})...) {
		out.Add("caution", f.Code, f.Severity, f.Text, f.Action, f.Source, "")
	}
	return out
}

// Text says what stands in the file and what does not.
func (c Checked) Text(u form.Units) *form.Text {
	t := &form.Text{}
	t.Say("", "%s", c.Boat.Text)
	t.Line("No errors.")
	if all := c.Warnings(u); len(all) > 0 {
		t.Line("\nWarnings:")
		for _, w := range all {
			t.Say("  - ", "%s", w)
		}
	}
	t.Line("\nFilled in by the program; what not knowing it adds to a level stands on the right:\n")
	filled := form.NewTable("what", "value", "source", ">± dB")
	for _, a := range c.assumptions() {
		filled.Add(a.Field, u.Local(a.Value), u.Local(a.Source), fmt.Sprintf("%.1f", *a.PlusMinus))
	}
	t.Table(filled)
	if r := c.refusals(u); len(r) > 0 {
		t.Line("\nRefused layouts:")
		for _, f := range r {
			f.sayRefusal(t)
		}
	}
	t.Line("\nCautions, most dangerous first:")
	for _, f := range c.cautions(allNames, u) {
		f.sayCaution(t)
		t.Say("           ", "[%s; %s]", f.Code, u.Local(f.Source))
	}
	return t
}
