package main

import (
	"errors"

	"github.com/spf13/cobra"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/fileschema"
	"hushwake/path/report"
	"hushwake/path/study/readings"
)

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
				return c.printIndented(fileschema.Schema())
			}
			return runCheck(c, args[0])
		},
	}
	cmd.Flags().BoolVar(&schema, "schema", false, "print the JSON schema of the boat file, for editors")
	return cmd
}

// runCheck puts the errors of a bad file into the JSON document too; the text goes to stderr.
func runCheck(c *common, file string) error {
	b, err := c.load(file)
	var problems *decode.Errors
	if c.format == "json" && errors.As(err, &problems) {
		printJSON(c.out, report.Errors(problems.Problems))
	}
	if err != nil {
		return err
	}
	checked, err := report.NewChecked(b, readings.Options{Ignore: c.ignore})
	if err != nil {
		return err
	}
	return c.print(checked)
}
