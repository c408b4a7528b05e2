package main

import (
	"io"

	"github.com/spf13/cobra"

	"hushwake/charts"
)

type compareOptions struct {
	*common
	selection
	report        string
	force         bool
	failOverLimit bool
}

func newCompare(c *common) *cobra.Command {
	o := &compareOptions{common: c}
	cmd := fileCommand("compare FILE", "Every layout at every listener, back pressure against its limit, ranking and trade-off", o.run)
	f := cmd.Flags()
	f.StringArrayVar(&o.layouts, "layout", nil, "only this layout (may be repeated)")
	f.StringArrayVar(&o.listeners, "listener", nil, "only this listener (may be repeated); the first one orders the table")
	f.StringVar(&o.report, "report", "", "also write the report page to this HTML file")
	f.BoolVar(&o.force, "force", false, "replace an existing report")
	f.BoolVar(&o.failOverLimit, "fail-over-limit", false, "exit with status 1 when a limit of the file is exceeded")
	drawFlags(f, &o.draws)
	return cmd
}

func (o *compareOptions) run(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	if len(o.listeners) > 0 {
		o.listener = o.listeners[0]
	}
	w, err := o.compare(o.common, b)
	if err != nil {
		return err
	}
	o.warn(w.Warnings(o.inUnits()))
	if err := o.print(w); err != nil {
		return err
	}
	if o.report != "" {
		data, err := w.Page(o.inUnits())
		if err != nil {
			return err
		}
		if err := o.writePage(o.report, o.force, func(f io.Writer) error { return charts.Write(f, data) }); err != nil {
			return err
		}
	}
	if o.failOverLimit && w.OverLimit() {
		return errOverLimit
	}
	return nil
}
