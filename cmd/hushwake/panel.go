package main

import (
	"github.com/spf13/cobra"

	"hushwake/path/boatfile/layers"
	"hushwake/path/panel"
	"hushwake/path/report/parts"
)

func newPanel(c *common) *cobra.Command {
	var file string
	cmd := &cobra.Command{
		Use:   "panel LAYER...",
		Short: "Transmission loss by band of a build-up, its mass and its cost per m2 where given",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return badInput("panel takes the layers from one side to the other\nhint: hushwake panel '4 mm steel' '50 mm mineral wool' '12 mm plywood'")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error { return runPanel(c, file, args) },
	}
	cmd.Flags().StringVar(&file, "materials", "", "a boat file whose own materials are used too")
	return cmd
}

func runPanel(c *common, file string, args []string) error {
	materials := panel.Default()
	if file != "" {
		b, err := c.load(file)
		if err != nil {
			return err
		}
		materials = b.Materials
	}
	var build panel.BuildUp
	for _, a := range args {
		l, err := layers.Parse(a, materials)
		if err != nil {
			return badInput("layer %q: %w", a, err)
		}
		build = append(build, l)
	}
	b := parts.NewBuildUp(materials, build)
	c.warn(b.Warnings())
	for _, t := range b.Notes() {
		c.remark("note: %s", t)
	}
	return c.print(b)
}
