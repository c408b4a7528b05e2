package main

import (
	"github.com/spf13/cobra"

	"hushwake/path/report/parts"
)

func newSource(c *common) *cobra.Command {
	return fileCommand("source FILE", "Each engine: firing frequency, orders, exhaust and casing sound power, exhaust flow and temperature", func(file string) error { return runSource(c, file) })
}

func runSource(c *common, file string) error {
	b, err := c.load(file)
	if err != nil {
		return err
	}
	all, err := parts.NewSources(b)
	if err != nil {
		return err
	}
	c.warn(all.Warnings(c.inUnits()))
	return c.print(all)
}
