package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/lines"
	"hushwake/path/report/form"
)

// complete tells the shell what the flags and the starter kinds may be; names come from the boat file on the line.
func complete(root *cobra.Command) {
	words := func(all ...string) cobra.CompletionFunc {
		return cobra.FixedCompletions(all, cobra.ShellCompDirectiveNoFileComp)
	}
	root.RegisterFlagCompletionFunc("format", words("table", "json", "csv"))
	root.RegisterFlagCompletionFunc("units", words("metric", "imperial"))
	for _, c := range root.Commands() {
		switch c.Name() {
		case "start":
			c.ValidArgsFunction = words(boatfile.StarterKinds...)
		case "panel":
			c.ValidArgsFunction = cobra.NoFileCompletions
		case "schema":
		case "listen":
			c.ValidArgsFunction = cobra.FixedCompletions([]string{"wav", "flac"}, cobra.ShellCompDirectiveFilterFileExt)
		default:
			c.ValidArgsFunction = cobra.FixedCompletions([]string{"yaml", "yml"}, cobra.ShellCompDirectiveFilterFileExt)
		}
		for flag, names := range namesOf {
			if c.Flags().Lookup(flag) != nil {
				c.RegisterFlagCompletionFunc(flag, fromFile(names))
			}
		}
	}
}

// helped are the tables and the commands that help tells of.
func helped(cmd *cobra.Command, args []string, _ string) (out []string, _ cobra.ShellCompDirective) {
	if len(args) == 0 {
		out = slices.Clone(lines.HelpTopics)
		for _, c := range cmd.Root().Commands() {
			if c.IsAvailableCommand() {
				out = append(out, c.Name())
			}
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

// namesOf are what a flag may name: things of the boat, or of its layouts that are meant.
var namesOf = map[string]func(*path.Boat, []*path.Layout) []string{
	"layout": func(b *path.Boat, _ []*path.Layout) []string {
		return form.Each(b.Layouts, func(l *path.Layout) string { return l.Name })
	},
	"listener": func(b *path.Boat, _ []*path.Layout) []string {
		return form.Each(b.Listeners, func(l path.Listener) string { return l.Name })
	},
	"element": func(_ *path.Boat, all []*path.Layout) []string { return ofEach(all, elementNames) },
	"engine": func(_ *path.Boat, all []*path.Layout) []string {
		return ofEach(all, func(l *path.Layout) []string {
			return form.Each(l.Engines, func(e path.Engine) string { return e.Name })
		})
	},
	"enclosure": func(_ *path.Boat, all []*path.Layout) []string {
		return ofEach(all, func(l *path.Layout) (names []string) {
			for _, e := range l.Enclosures {
				names = append(names, e.Name)
			}
			return names
		})
	},
}

func ofEach(all []*path.Layout, names func(*path.Layout) []string) (out []string) {
	for _, l := range all {
		out = append(out, names(l)...)
	}
	return out
}

// fromFile offers names of the boat file that stands on the line already; none where it can't be read.
func fromFile(names func(*path.Boat, []*path.Layout) []string) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
		if f := flagText(cmd, "boat"); f != "" {
			args = []string{f}
		}
		if len(args) == 0 || args[0] == boatfile.Dash {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		b, err := boatfile.LoadFile(args[0])
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		layouts := b.Layouts
		if l, err := chooseLayout(b, flagText(cmd, "layout")); err == nil && flagText(cmd, "layout") != "" {
			layouts = []*path.Layout{l}
		}
		all := slices.DeleteFunc(form.Unique(names(b, layouts)), func(n string) bool {
			return n != form.Name(n) || !strings.HasPrefix(n, begun) // a shell can't be given what it can't show
		})
		return all, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
	}
}

// flagText is what a flag says so far; nothing where a command lacks it.
func flagText(cmd *cobra.Command, name string) string {
	if f := cmd.Flags().Lookup(name); f != nil {
		return f.Value.String()
	}
	return ""
}
