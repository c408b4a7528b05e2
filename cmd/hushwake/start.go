package main

import (
	"os"
	"strings"

	"github.com/spf13/cobra"

	"hushwake/path/boatfile"
)

func newStart(c *common) *cobra.Command {
	var force bool
	var output string
	cmd := &cobra.Command{
		Use:   "start KIND [FILE]",
		Short: "Writes a commented starter boat file, KIND.yaml or FILE (- prints it): dry-stack, generator-box, three-quotes, choice, or mine with six questions to answer",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) < 1 || len(args) > 2 {
				return badInput("start takes a kind and, if you like, a file name\nhint: hushwake start dry-stack; kinds are %s", strings.Join(boatfile.StarterKinds, ", "))
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			text, err := boatfile.Starter(args[0])
			if err != nil {
				return badInput("%w", err)
			}
			name := args[0] + ".yaml"
			switch {
			case len(args) == 2:
				name = args[1]
			case output != "":
				name = output
			}
			if name == "-" || len(args) == 1 && output == "" && c.kept {
				_, err := c.out.Write(text)
				return writeError(err)
			}
			if err := writeFile(name, text, force); err != nil {
				return err
			}
			c.remark("wrote %s; change it to your boat, then: hushwake compare %s", name, name)
			return nil
		},
	}
	cmd.Flags().BoolVar(&force, "force", false, "replace an existing file")
	cmd.Flags().StringVar(&output, "output", "", "write to this file")
	return cmd
}

// intoFile says whether an output goes into a file of its own, as behind > in a shell: it is wanted there and nowhere else.
func intoFile(f *os.File) bool {
	i, err := f.Stat()
	return err == nil && i.Mode().IsRegular()
}
