package main

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"hushwake/path/boatfile"
)

type checkDoc struct {
	Errors      []problemDoc        `json:"errors"`
	Warnings    []string            `json:"warnings"`
	Assumptions []assumptionDoc     `json:"assumptions"`
	Cautions    []checkedCautionDoc `json:"cautions"`
}

type problemDoc struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
	Hint    string `json:"hint"`
}

type checkedCautionDoc struct {
	Code     string `json:"code"`
	Severity string `json:"severity"`
	Text     string `json:"text"`
	Action   string `json:"action"`
	Source   string `json:"source"`
	Layouts  string `json:"layouts"`
	Refuses  bool   `json:"refuses"`
}

func newCheck(c *common) *cobra.Command {
	var schema bool
	cmd := &cobra.Command{
		Use:   "check FILE",
		Short: "All errors, warnings, assumptions and safety cautions of a boat file",
		Args: func(cmd *cobra.Command, args []string) error {
			if schema && len(args) == 0 {
				return nil
			}
			return fileArgument(cmd, args)
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if schema {
				return printSchema(c)
			}
			return runCheck(c, args[0])
		},
	}
	cmd.Flags().BoolVar(&schema, "schema", false, "print the JSON schema of the boat file, for editors")
	return cmd
}

func printSchema(c *common) error {
	text, err := json.MarshalIndent(boatfile.Schema(), "", "  ")
	if err != nil {
		return failed("%w", err)
	}
	_, err = fmt.Fprintln(c.out, string(text))
	return writeError(err)
}

func runCheck(c *common, file string) error {
	b, err := c.load(file)
	if err != nil {
		c.checkErrors(err)
		return err
	}
	w := &worked{boat: b}
	if b.Bench == nil || len(b.Listeners) > 0 {
		if w.predictions, err = predictAll(b, b.Layouts); err != nil {
			return err
		}
	}
	switch c.format {
	case "json":
		return printJSON(c.out, newCheckDoc(w))
	case "csv":
		return checkCSV(c, w)
	}
	c.printCheck(w)
	return nil
}

// checkErrors puts the errors of a bad file into the JSON document too; the text goes to stderr.
func (c *common) checkErrors(err error) {
	var problems *boatfile.Errors
	if c.format != "json" || !errors.As(err, &problems) {
		return
	}
	d := checkDoc{Errors: []problemDoc{}, Warnings: []string{}, Assumptions: []assumptionDoc{}, Cautions: []checkedCautionDoc{}}
	for _, p := range problems.Problems {
		d.Errors = append(d.Errors, problemDoc{p.File, p.Line, p.Column, p.Message, p.Hint})
	}
	printJSON(c.out, d)
}

func newCheckDoc(w *worked) checkDoc {
	d := checkDoc{Errors: []problemDoc{}, Warnings: list(w.warnings()), Assumptions: w.assumptions(), Cautions: []checkedCautionDoc{}}
	for _, f := range append(w.refusals(si), w.cautions(allNames, si)...) {
		d.Cautions = append(d.Cautions, checkedCautionDoc{f.Code, f.Severity, f.Text, f.Action, f.Source, f.where, f.Refuse})
	}
	return d
}

func (c *common) printCheck(w *worked) {
	paragraph(c.out, "", w.boat.Text)
	fmt.Fprintln(c.out, "No errors.")
	if ws := w.told(c); len(ws) > 0 {
		fmt.Fprintln(c.out, "\nWarnings:")
		for _, t := range ws {
			paragraph(c.out, "  - ", t)
		}
	}
	fmt.Fprintln(c.out, "\nFilled in by the program; what not knowing it adds to a level stands on the right:")
	fmt.Fprintln(c.out)
	t := table{head: []string{"what", "value", "source", "± dB"}, right: []bool{false, false, false, true}}
	for _, a := range w.assumptions() {
		t.add(a.Field, c.local(a.Value), c.local(a.Source), fmt.Sprintf("%.1f", *a.PlusMinus))
	}
	t.print(c.out)
	if r := w.refusals(c.local); len(r) > 0 {
		fmt.Fprintln(c.out, "\nRefused layouts:")
		for _, f := range r {
			writeRefusal(c.out, f)
		}
	}
	fmt.Fprintln(c.out, "\nCautions, most dangerous first:")
	for _, f := range w.cautions(allNames, c.local) {
		writeCaution(c.out, f)
		paragraph(c.out, "           ", "["+f.Code+"; "+f.Source+"]")
	}
}

func checkCSV(c *common, w *worked) error {
	out := csv.NewWriter(c.out)
	out.Write([]string{"sort", "code", "severity", "text", "action", "source", "plus_minus_db"})
	for _, t := range w.warnings() {
		out.Write([]string{"warning", "", "", t, "", "", ""})
	}
	for _, a := range w.assumptions() {
		out.Write([]string{"assumption", a.Field, "", a.Value, "", a.Source, field(a.PlusMinus)})
	}
	for _, f := range append(w.refusals(si), w.cautions(allNames, si)...) {
		out.Write([]string{"caution", f.Code, f.Severity, f.Text, f.Action, f.Source, ""})
	}
	out.Flush()
	return writeError(out.Error())
}
