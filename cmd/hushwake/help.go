package main

import (
	"strings"

	"github.com/spf13/cobra"

	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/spelling"
	"hushwake/path/report/parts"
)

// newHelp is the help of commands, with the tables of what a boat file may hold beside it.
func newHelp(c *common) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND | " + strings.Join(lines.HelpTopics, " | ") + "]",
		Short: "Help about a command; the materials, elements, linings, hulls, mounts or units that a boat file knows",
		Args:  cobra.ArbitraryArgs,

		ValidArgsFunction: helped,
		RunE: func(cmd *cobra.Command, args []string) error {
			root := cmd.Root()
			if len(args) == 0 {
				return root.Help()
			}
			if t, ok := parts.NewKnown(args[0]); ok {
				return c.print(t)
			}
			if found, rest, err := root.Find(args); err == nil && found != root && len(rest) == 0 {
				return found.Help()
			}
			known := append([]string(nil), lines.HelpTopics...)
			for _, x := range root.Commands() {
				known = append(known, x.Name())
			}
			hint := "tables are " + strings.Join(lines.HelpTopics, ", ") + "; 'hushwake help' lists the commands"
			if near := spelling.Nearest(args[0], known); near != "" {
				hint = "did you mean " + near + "? " + hint
			}
			return badInput("no command and no table %q\nhint: %s", args[0], hint)
		},
	}
}
