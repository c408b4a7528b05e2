package main

import (
	"github.com/spf13/cobra"

	"hushwake/path/report"
	"hushwake/path/study/draws"
)

type explainOptions struct {
	*common
	layout, listener string
	all              bool
}

func newExplain(c *common) *cobra.Command {
	o := &explainOptions{common: c}
	cmd := fileCommand("explain FILE --layout L --listener N", "The chain behind one number, band by band, each step with its formula and source", o.run)
	f := cmd.Flags()
	f.StringVar(&o.layout, "layout", "", "the layout, by name or 1-based place; default the first")
	f.StringVar(&o.listener, "listener", "", "the listener; default the first")
	f.BoolVar(&o.all, "all", false, "show the steps of every route, not only of those within 10 dB of the loudest")
	return cmd
}

func (o *explainOptions) run(file string) error {
	b, l, j, err := o.seatOf(file, o.layout, o.listener)
	if err != nil {
		return err
	}
	known, err := o.know(b, draws.Options{}, l)
	if err != nil {
		return err
	}
	e, err := report.NewExplained(known, l, j, o.all)
	if err != nil {
		return err
	}
	o.warn(e.Warnings(o.inUnits()))
	return o.print(e)
}
