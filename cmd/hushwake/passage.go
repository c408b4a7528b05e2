package main

import (
	"github.com/spf13/cobra"

	"hushwake/path/report/voyage"
	"hushwake/path/study/draws"
)

type passageOptions struct {
	*common
	layouts []string
	draws   draws.Options
}

func newPassage(c *common) *cobra.Command {
	o := &passageOptions{common: c}
	cmd := fileCommand("passage FILE", "Days at sea: a day's dose at each place and on watch, fuel and its price, the floor that no silencer takes out", o.run)
	f := cmd.Flags()
	f.StringArrayVar(&o.layouts, "layout", nil, "only this layout (may be repeated)")
	drawFlags(f, &o.draws)
	return cmd
}

func (o *passageOptions) run(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	layouts, err := chooseLayouts(b, o.layouts)
	if err != nil {
		return err
	}
	known, err := o.know(b, o.draws, layouts...)
	if err != nil {
		return err
	}
	w, err := voyage.NewVoyages(known, layouts)
	if err != nil {
		return err
	}
	return o.print(w)
}
