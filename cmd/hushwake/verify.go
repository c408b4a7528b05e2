package main

import (
	"encoding/csv"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"hushwake/path/study/verify"
)

type verifyDoc struct {
	Checks       []verifyRow `json:"checks"`
	Passed       int         `json:"passed"`
	Failed       int         `json:"failed"`
	NotValidated []string    `json:"not_validated"`
	Marks        []markCount `json:"marks"`
}

// markCount is how many rows bear a mark, such as read, derived or from memory.
type markCount struct {
	Mark string `json:"mark"`
	Rows int    `json:"rows"`
}

type verifyRow struct {
	What      string `json:"what"`
	Source    string `json:"source"`
	Expected  number `json:"expected"`
	Ours      number `json:"ours"`
	Tolerance number `json:"tolerance"`
	Verdict   string `json:"verdict"`
	Unit      string `json:"unit"`
	Mark      string `json:"mark"`
}

func newVerify(c *common) *cobra.Command {
	o := measuredOptions{common: c}
	var measured bool
	cmd := &cobra.Command{
		Use:   "verify [--measured [FILE|FOLDER...]]",
		Short: "Runs the published checks here, or with --measured the record of measured boats",
		RunE: func(_ *cobra.Command, args []string) error {
			if measured {
				return o.run(args)
			}
			if len(args) > 0 || o.report != "" || o.strict {
				return badInput("files, --report and --strict belong to the record of measured boats\nhint: hushwake verify --measured")
			}
			return runVerify(c)
		},
	}
	cmd.Flags().BoolVar(&measured, "measured", false, "predict measured boats, engines and boxes, and say how far off that is; with files those alone")
	o.flags(cmd.Flags())
	return cmd
}

func runVerify(c *common) error {
	r, err := verify.Run()
	if err != nil {
		return failed("%w", err)
	}
	if err := printVerify(c, newVerifyDoc(r)); err != nil {
		return err
	}
	if r.Failed > 0 {
		return failed("%d of %d published checks fail\nhint: do not trust a result of this build", r.Failed, r.Failed+r.Passed)
	}
	return nil
}

func newVerifyDoc(r verify.Report) verifyDoc {
	d := verifyDoc{Checks: []verifyRow{}, Passed: r.Passed, Failed: r.Failed, NotValidated: list(r.NotValidated), Marks: []markCount{}}
	at := map[string]int{}
	for _, k := range r.Checks {
		if _, ok := at[k.Mark]; !ok {
			at[k.Mark] = len(d.Marks)
			d.Marks = append(d.Marks, markCount{Mark: k.Mark})
		}
		d.Marks[at[k.Mark]].Rows++
		d.Checks = append(d.Checks, verifyRow{k.What, k.Source, num(k.Expected), numOr(k.Ours, 1), num(k.Tolerance), k.Verdict, k.Unit, k.Mark})
	}
	return d
}

func printVerify(c *common, d verifyDoc) error {
	switch c.format {
	case "json":
		return printJSON(c.out, d)
	case "csv":
		w := csv.NewWriter(c.out)
		w.Write([]string{"what", "source", "expected", "ours", "tolerance", "verdict"})
		for _, r := range d.Checks {
			w.Write([]string{r.What, r.Source, field(r.Expected), field(r.Ours), field(r.Tolerance), r.Verdict})
		}
		w.Flush()
		return writeError(w.Error())
	}
	t := table{head: []string{"what", "source", "expected", "ours", "tolerance", "verdict"}, right: []bool{false, false, true, true, true, false}}
	for _, r := range d.Checks {
		t.add(r.What, r.Source+" ["+r.Mark+"]", short(r.Expected)+" "+r.Unit, short(r.Ours), short(r.Tolerance), r.Verdict)
	}
	t.print(c.out)
	var marks []string
	for _, m := range d.Marks {
		marks = append(marks, fmt.Sprintf("%d %s", m.Rows, m.Mark))
	}
	fmt.Fprintf(c.out, "\n%d hold, %d fail; by mark: %s\n\nNot validated:\n", d.Passed, d.Failed, strings.Join(marks, ", "))
	for _, s := range d.NotValidated {
		paragraph(c.out, "  - ", s)
	}
	return nil
}

func short(v number) string {
	if v == nil {
		return "none"
	}
	return fmt.Sprintf("%.5g", *v)
}
