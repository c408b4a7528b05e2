package main

import (
	"encoding/csv"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"hushwake/path/study/draws"
	"hushwake/path/study/survey"
)

type surveyDoc struct {
	Readings   []plannedDoc  `json:"readings"`
	Acceptance []expectedDoc `json:"acceptance"`
}

type plannedDoc struct {
	Order    int    `json:"order"`
	What     string `json:"what"`
	Where    string `json:"where"`
	How      string `json:"how"`
	SDBefore number `json:"sd_before"`
	SDAfter  number `json:"sd_after"`
	Unit     string `json:"unit"`
}

type expectedDoc struct {
	Layout   string `json:"layout"`
	Listener string `json:"listener"`
	LevelDBA number `json:"level_dba"`
	LowDBA   number `json:"low_dba"`
	HighDBA  number `json:"high_dba"`
}

type surveyOptions struct {
	*common
	present, listener string
	draws             draws.Options
}

func newSurvey(c *common) *cobra.Command {
	o := &surveyOptions{common: c}
	cmd := &cobra.Command{
		Use:   "survey FILE",
		Short: "What to measure with phone, tape and manometer, in which order, and what to expect after fitting",
		Args:  fileArgument,
		RunE:  func(_ *cobra.Command, args []string) error { return o.run(args[0]) },
	}
	f := cmd.Flags()
	f.StringVar(&o.present, "layout", "", "the layout that is on board now; default the first")
	f.StringVar(&o.listener, "listener", "", "the seat whose level matters; default the first")
	drawFlags(f, &o.draws)
	return cmd
}

func (o *surveyOptions) run(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	l, err := chooseLayout(b, o.present)
	if err != nil {
		return err
	}
	w, err := work(b, selection{draws: o.draws, listener: o.listener})
	if err != nil {
		return err
	}
	o.warn(w)
	plan, err := survey.Make(w.model, w.predictions, w.model.Prior(), survey.Options{
		Present: l.Name, Listener: b.Listeners[w.listener].Name, Doors: l.Doors(), Predict: predictor(b)})
	if err != nil {
		return badInput("%w", err)
	}
	switch o.format {
	case "json":
		return printJSON(o.out, newSurveyDoc(plan))
	case "csv":
		return surveyCSV(o.common, plan)
	}
	o.table(b.Text, l.Name, plan)
	return nil
}

func newSurveyDoc(p survey.Plan) surveyDoc {
	d := surveyDoc{Readings: []plannedDoc{}, Acceptance: []expectedDoc{}}
	for _, r := range p.Readings {
		d.Readings = append(d.Readings, plannedDoc{r.Order, r.What, r.Where, r.How, num(r.Before), num(r.After), r.Unit})
	}
	for _, e := range p.Acceptance {
		d.Acceptance = append(d.Acceptance, expectedDoc{e.Layout, e.Listener, level(e.Level), level(e.Low), level(e.High)})
	}
	return d
}

func (o *surveyOptions) table(boat, layout string, p survey.Plan) {
	paragraph(o.out, "", boat)
	fmt.Fprintln(o.out)
	paragraph(o.out, "", fmt.Sprintf("What to measure now, with \"%s\" on board, the most telling reading first. The last two columns are one "+
		"standard deviation of the level at %s without and with that reading.", layout, p.Listener))
	fmt.Fprintln(o.out)
	t := table{head: []string{"", "what", "where", "without", "with"}, right: []bool{true, false, false, true, true}}
	for _, r := range p.Readings {
		t.add(strconv.Itoa(r.Order), r.What, r.Where, fmt.Sprintf("%.1f %s", r.Before, r.Unit), fmt.Sprintf("%.1f %s", r.After, r.Unit))
	}
	t.print(o.out)
	fmt.Fprint(o.out, "\nHow:\n")
	said := map[string]bool{}
	for _, r := range p.Readings {
		if r.How == "" || said[r.How] {
			continue
		}
		said[r.How] = true
		paragraph(o.out, fmt.Sprintf("%3d ", r.Order), r.How)
	}
	fmt.Fprint(o.out, "\nAfter fitting, the same meter at the same duty should read, dB(A):\n\n")
	t = table{head: []string{"layout", "listener", "expected", "eight cases of ten"}, right: []bool{false, false, true, true}}
	for _, e := range p.Acceptance {
		t.add(e.Layout, e.Listener, decibel(e.Level), bandText(e.Low, e.High))
	}
	t.print(o.out)
}

func surveyCSV(c *common, p survey.Plan) error {
	w := csv.NewWriter(c.out)
	w.Write([]string{"order", "what", "where", "how", "sd_before", "sd_after", "unit"})
	for _, r := range p.Readings {
		w.Write([]string{strconv.Itoa(r.Order), r.What, r.Where, r.How, field(num(r.Before)), field(num(r.After)), r.Unit})
	}
	w.Flush()
	return writeError(w.Error())
}
