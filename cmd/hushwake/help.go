package main

import (
	"encoding/csv"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"hushwake/path/boatfile"
)

// newHelp is the help of commands, with the tables of what a boat file may hold beside it.
func newHelp(c *common) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND | " + strings.Join(boatfile.HelpTopics, " | ") + "]",
		Short: "Help about a command; the materials, elements, linings or units that a boat file knows",
		Args:  cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			root := cmd.Root()
			if len(args) == 0 {
				return root.Help()
			}
			if t, ok := boatfile.Help(args[0]); ok {
				return c.helpTable(t)
			}
			if found, rest, err := root.Find(args); err == nil && found != root && len(rest) == 0 {
				return found.Help()
			}
			known := append([]string(nil), boatfile.HelpTopics...)
			for _, x := range root.Commands() {
				known = append(known, x.Name())
			}
			hint := "tables are " + strings.Join(boatfile.HelpTopics, ", ") + "; 'hushwake help' lists the commands"
			if near := boatfile.Nearest(args[0], known); near != "" {
				hint = "did you mean " + near + "? " + hint
			}
			return badInput("no command and no table %q\nhint: %s", args[0], hint)
		},
	}
}

type helpTableDoc struct {
	Topic string              `json:"topic"`
	Rows  []map[string]string `json:"rows"`
}

func (c *common) helpTable(t boatfile.HelpTable) error {
	switch c.format {
	case "json":
		d := helpTableDoc{Topic: t.Topic, Rows: []map[string]string{}}
		for _, r := range t.Rows {
			row := map[string]string{}
			for i, h := range t.Head {
				row[h] = r[i]
			}
			d.Rows = append(d.Rows, row)
		}
		return printJSON(c.out, d)
	case "csv":
		w := csv.NewWriter(c.out)
		w.Write(t.Head)
		w.WriteAll(t.Rows)
		return w.Error()
	}
	paragraph(c.out, "", t.Text)
	fmt.Fprintln(c.out)
	out := table{head: t.Head, right: t.Right, rows: t.Rows}
	out.print(c.out)
	return nil
}
