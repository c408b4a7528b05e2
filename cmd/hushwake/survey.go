package main

import (
	"github.com/spf13/cobra"

	"hushwake/path/report/onboard"
	"hushwake/path/study/draws"
)

type surveyOptions struct {
	*common
	present, listener string
	draws             draws.Options
}

func newSurvey(c *common) *cobra.Command {
	o := &surveyOptions{common: c}
	cmd := fileCommand("survey FILE", "What to measure with phone, tape and manometer, in which order, and what to expect after fitting", o.run)
	f := cmd.Flags()
	f.StringVar(&o.present, "layout", "", "the layout that is on board now; default that of the first reading, else one called as is or as found, else the first")
	f.StringVar(&o.listener, "listener", "", "the seat whose level matters; default the first")
	drawFlags(f, &o.draws)
	return cmd
}

func (o *surveyOptions) run(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	if l, _, _ := b.Present(); o.present == "" && l != nil {
		o.present = l.Name
	}
	l, err := chooseLayout(b, o.present)
	if err != nil {
		return err
	}
	w, err := selection{draws: o.draws, listener: o.listener}.compare(o.common, b)
	if err != nil {
		return err
	}
	o.warn(w.Warnings(o.inUnits()))
	s, err := onboard.NewSurveyed(w, l)
	if err != nil {
		return err
	}
	return o.print(s)
}
