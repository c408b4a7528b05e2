package main

import (
	"github.com/spf13/cobra"

	"hushwake/path/report"
)

func newSource(c *common) *cobra.Command {
	return &cobra.Command{
		Use:   "source FILE",
		Short: "Each engine: firing frequency, orders, exhaust and casing sound power, exhaust flow and temperature",
		Args:  fileArgument,
		RunE:  func(_ *cobra.Command, args []string) error { return runSource(c, args[0]) },
	}
}

func runSource(c *common, file string) error {
	b, err := c.load(file)
	if err != nil {
		return err
	}
	all, err := report.NewSources(b)
	if err != nil {
		return err
	}
	c.warn(all.Warnings(c.inUnits()))
	return c.print(all)
}
