package main

import (
	"github.com/spf13/cobra"

	"hushwake/path/report/proof"
	"hushwake/path/study/verify"
)

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
	if err := c.print(proof.Verified{Report: r}); err != nil {
		return err
	}
	if r.Failed > 0 {
		return failed("%d of %d published checks fail\nhint: do not trust a result of this build", r.Failed, r.Failed+r.Passed)
	}
	return nil
}
